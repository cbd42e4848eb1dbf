import type { DepotPreview } from '#server/contract/settings.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { MisfitsList } from './misfits-list.tsx';
import { sayMisfits } from './say-misfits.ts';

interface Props {
  preview: DepotPreview;
  onYes: () => void;
  onNo: () => void;
}

/** Before a change is stored that leaves bookings without room. */
export const AskMisfits = ({ preview, onYes, onNo }: Props) => (
  <AskDialog
    title="Save it although bookings no longer fit?"
    yes="Save the depot"
    no="Go on changing"
    kind="main"
    onYes={onYes}
    onNo={onNo}
  >
    <p>{sayMisfits(preview)}</p>
    <MisfitsList misfits={preview.misfits} />
    <p>They stay as they are and stand in the bay plan as not fitting, until a planner moves them.</p>
  </AskDialog>
);
