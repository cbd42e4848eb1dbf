import { useNavigate } from '@tanstack/react-router';
import { useOpenPacket } from '#web/api/use-packets.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';

interface Props {
  vehicle: string;
  label?: string;
  kind?: 'main' | 'plain' | 'quiet';
}

/** To the packet of a vehicle: the open one where there is one, else a new one. */
export function OpenPacketButton({ vehicle, label = 'Open packet', kind = 'plain' }: Props) {
  const navigate = useNavigate();
  const open = useOpenPacket();
  return (
    <>
      <Button
        kind={kind}
        disabled={open.isPending}
        aria-label={label === 'Open packet' ? `Open packet of ${vehicle}` : undefined}
        onClick={() =>
          open.mutate(vehicle, {
            onSuccess: ({ id }) => void navigate({ to: '/packets/$id', params: { id: String(id) } }),
          })
        }
      >
        {label}
      </Button>
      {open.isError && <ProblemNote error={open.error} />}
    </>
  );
}
