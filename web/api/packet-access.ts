import { createContext, useContext } from 'react';

/** How a packet is reached: as whoever is signed in, or by the secret of a link. */
export interface PacketAccess {
  /** null for somebody who is signed in */
  secret: string | null;
}

export const PacketAccessContext = createContext<PacketAccess>({ secret: null });

export const usePacketAccess = (): PacketAccess => useContext(PacketAccessContext);

/** Who holds a link sends its secret and nothing else: a cookie would make it somebody's call. */
export const withAccess = ({ secret }: PacketAccess, request: RequestInit): RequestInit =>
  secret === null
    ? request
    : {
        ...request,
        credentials: 'omit',
        headers: { ...Object.fromEntries(new Headers(request.headers)), authorization: `Bearer ${secret}` },
      };
