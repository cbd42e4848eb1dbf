import { getRouteApi, useLocation } from '@tanstack/react-router';
import { useCallback, useEffect, useMemo, useState } from 'react';
import type { TestStep } from '#server/contract/words.ts';
import { PacketAccessContext } from '#web/api/packet-access.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { usePacket } from '#web/api/use-packet.ts';
import { Waiting } from '#web/screens/vehicle/waiting.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { keepSecret, readSecret } from './link-secret.ts';
import { parsePacketSearch } from './packet-search.ts';
import styles from './packet-view.module.css';
import { PacketView } from './packet-view.tsx';

const route = getRouteApi('/shared');
/** Anything shorter behind # is a place in the page. */
const isSecret = (hash: string): boolean => /^[\w-]{32,}$/.test(hash);

/** A packet for who holds a link. Its secret leaves the address bar at once, and is kept while this window is open. */
export function SharedScreen() {
  const hash = useLocation({ select: (location) => location.hash });
  const { step } = parsePacketSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const [secret, setSecret] = useState(readSecret);
  useEffect(() => {
    if (!isSecret(hash)) return;
    keepSecret(hash);
    setSecret(hash);
    void navigate({ to: '/shared', search: (before) => before, hash: '', replace: true });
  }, [hash, navigate]);
  const onStep = useCallback(
    (to: TestStep) => void navigate({ to: '/shared', search: { step: to }, resetScroll: false }),
    [navigate],
  );
  const access = useMemo(() => ({ secret }), [secret]);
  useEffect(() => {
    document.title = 'Packet · Slipdrift';
  }, []);
  if (secret === null && isSecret(hash)) return null;
  if (secret === null)
    return (
      <div className={styles.page}>
        <h1>The link is not complete</h1>
        <p>
          A link to a packet has a long part after <code>#</code>. Open it whole, as it was given to you.
        </p>
      </div>
    );
  return (
    <PacketAccessContext value={access}>
      <SharedPacket key={secret} step={step} onStep={onStep} />
    </PacketAccessContext>
  );
}

function SharedPacket({ step, onStep }: { step: TestStep | undefined; onStep: (step: TestStep) => void }) {
  const { data, isError, error, refetch } = usePacket(null);
  if (isError && error instanceof ProblemError && [401, 403, 404].includes(error.status))
    return (
      <div className={styles.page}>
        <h1>This link does not work</h1>
        <p>{error.detail}</p>
      </div>
    );
  if (data !== undefined) return <PacketView packet={data} step={step} onStep={onStep} />;
  return (
    <div className={styles.page}>
      <h1>Packet</h1>
      {isError ? (
        <ProblemNote error={error} onRetry={() => void refetch()} />
      ) : (
        <Waiting name="the packet" heightPx={480} />
      )}
    </div>
  );
}
