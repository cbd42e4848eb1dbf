import { getRouteApi, Link } from '@tanstack/react-router';
import { useCallback, useEffect } from 'react';
import type { TestStep } from '#server/contract/words.ts';
import { usePacket } from '#web/api/use-packet.ts';
import { isNotFound } from '#web/screens/vehicle/is-not-found.ts';
import { Waiting } from '#web/screens/vehicle/waiting.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { parsePacketSearch } from './packet-search.ts';
import styles from './packet-view.module.css';
import { PacketView } from './packet-view.tsx';

const route = getRouteApi('/packets/$id');

/** A packet for who is signed in. */
export function PacketScreen() {
  const { id: text } = route.useParams();
  const { step } = parsePacketSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const id = /^\d{1,15}$/.test(text) ? Number(text) : null;
  const onStep = useCallback(
    (to: TestStep) =>
      void navigate({ to: '/packets/$id', params: { id: text }, search: { step: to }, resetScroll: false }),
    [navigate, text],
  );
  return id === null ? <NoPacket /> : <OnePacket key={id} id={id} step={step} onStep={onStep} />;
}

function OnePacket({
  id,
  step,
  onStep,
}: {
  id: number;
  step: TestStep | undefined;
  onStep: (step: TestStep) => void;
}) {
  const { data, isError, error, refetch } = usePacket(id);
  const vehicle = data?.vehicle;
  useEffect(() => {
    document.title = `${vehicle === undefined ? 'Packet' : `Packet ${vehicle}`} · Slipdrift`;
  }, [vehicle]);
  if (data !== undefined) return <PacketView packet={data} step={step} onStep={onStep} />;
  if (isError && isNotFound(error)) return <NoPacket />;
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

function NoPacket() {
  return (
    <div className={styles.page}>
      <h1>No such packet</h1>
      <p>
        There is no packet with this number, or it is not yours to see.{' '}
        <Link to="/packets">Go to the packets</Link>
      </p>
    </div>
  );
}
