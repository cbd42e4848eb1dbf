import type { Outlook } from '#server/contract/ranking.ts';

interface Props {
  outlook: Outlook | null;
  onOpen: (vehicle: string) => void;
}

export function OutlookFigure({ outlook }: Props) {
  return <p>{outlook?.weeks.length}</p>;
}
