import type { HeldVehicle } from '#db/queries/lock-booking.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import type { PlannedDepot } from './object-to-day.ts';
import { refuse, wrong } from './objection.ts';

/** The depot where a vehicle is to be inspected, if the one who asks may book its bays. `asked` is null for its own. */
export function ownDepotOf(
  ctx: Pick<Context, 'actor'>,
  { vehicle, depot }: HeldVehicle,
  asked: string | undefined,
): PlannedDepot {
  if (depot === null)
    throw refuse(
      wrong(
        'depot',
        asked === undefined
          ? `${vehicle.unit} belongs to no depot: say at which one it is to be inspected.`
          : `No depot '${asked}' is known.`,
      ),
    );
  if (isWithin(ctx, depot.id)) return depot;
  throw refuse({
    code: 'not_allowed',
    field: 'depot',
    message: `You do not work for ${depot.name}, so you cannot book its bays.`,
  });
}
