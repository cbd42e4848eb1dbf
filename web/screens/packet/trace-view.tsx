import { useRoadTrace } from '#web/api/use-packet.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TraceFigure } from './trace-figure.tsx';

/** The recorded road test behind a finding. */
export function TraceView({ packet, finding }: { packet: number; finding: number }) {
  const { data, isPending, isError, error, refetch } = useRoadTrace(packet, finding);
  if (isPending) return <p role="status">Loading the trace</p>;
  if (isError) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  return <TraceFigure trace={data} />;
}
