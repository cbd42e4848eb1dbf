import type { FieldError } from '#server/contract/problems.ts';
import { MOST_SHOWN, type SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { findSetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import type { SetUpKind } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import type { SetUpOptions, SetUpOutcome } from '#server/services/fleet/set-up.ts';
import { setUpLives } from '#server/services/fleet/set-up-lives.ts';
import { setUpPlatforms } from '#server/services/fleet/set-up-platforms.ts';
import { setUpVehicles } from '#server/services/fleet/set-up-vehicles.ts';
import { describeChanges } from './describe-changes.ts';
import { setUpFailures } from './failures/set-up-failures.ts';
import { setUpDepotsByDays } from './fill-weeks.ts';
import { findWarnings } from './find-warnings.ts';
import { readInputs } from './read-inputs.ts';
import { refuseFile } from './refuse-file.ts';
import { translateFaults } from './translate-faults.ts';

type Service = (
  context: Context,
  inputs: Record<string, unknown>[],
  options: SetUpOptions,
) => Promise<SetUpOutcome>;

const services: Record<SetUpKind, Service> = {
  depots: setUpDepotsByDays,
  platforms: setUpPlatforms,
  vehicles: setUpVehicles,
  lives: setUpLives,
  failures: setUpFailures,
};

/**
 * Sets up what a file says, all or nothing, through the services that take the same as JSON. A dry run does all of it and
 * takes it back. All faults are told at once, those of cells and those of what is on record.
 */
export async function setUpFromFile(
  context: Context,
  kind: SetUpKind,
  bytes: Uint8Array,
  dryRun: boolean,
): Promise<SetUpFileReply> {
  const file = findSetUpFile(kind);
  const { matched, inputs, faults, lines } = readInputs(file, bytes);
  if (lines === 0)
    throw new SlipdriftError(
      'body_empty',
      'The file has a header and no line below it. Nothing was changed.',
    );
  const isBroken = faults.length > 0;
  const ask = () =>
    services[kind](
      context,
      inputs.map(({ input }) => input),
      { dryRun: dryRun || isBroken, lines: inputs.map(({ line }) => line) },
    );
  const outcome = await ask().catch((error: unknown) => {
    if (!(error instanceof SlipdriftError) || error.errors.length === 0) throw error;
    const all: FieldError[] = [...faults, ...translateFaults(error, matched)];
    throw refuseFile(all, isBroken ? 'invalid_request' : error.code);
  });
  if (isBroken) throw refuseFile(faults);
  const changes = describeChanges(file, outcome.noted);
  const warnings = await findWarnings(context, kind, inputs);
  return {
    kind,
    dry_run: dryRun,
    lines,
    ...outcome.reply,
    changes: changes.slice(0, MOST_SHOWN),
    changes_total: changes.length,
    warnings: warnings.slice(0, MOST_SHOWN),
    warnings_total: warnings.length,
  };
}
