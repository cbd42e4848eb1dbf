import type { Packet } from '#server/contract/packets.ts';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { Units } from '#web/format/units.ts';

export interface PrintPhoto {
  name: string;
  /** media type; only JPEG and PNG can be printed, others are named */
  type: string;
  bytes: Uint8Array;
}

/** A packet with what its pages draw from. */
export interface PrintRequest {
  packet: Packet;
  /** null where the vehicle has no readings, or they cannot be had */
  series: VehicleSeries | null;
  trace: RoadTrace | null;
  photos: PrintPhoto[];
  size: 'a4' | 'letter';
  units: Units;
  /** RFC 3339 */
  madeAt: string;
  /** of the depot, for all times on the pages; UTC where it is not a known zone */
  timeZone: string;
}
