import type { z } from 'zod';
import { findingInput } from '#server/contract/test-steps.ts';
import type { Context } from '#server/services/context.ts';
import { findPacket } from '#server/services/packets/find-packet.ts';
import { readJudgedPlatform } from '#server/services/packets/judged-platform.ts';
import { recordFinding } from '#server/services/packets/record-finding.ts';

/** What a mechanic of the demo enters, from the figures of the platform. */
export type Steps = (platform: { limitRpm: number; expectedA: number }) => z.input<typeof findingInput>[];

/** Records test steps of a packet, each so many minutes after the one before. */
export async function recordSteps(ctx: Context, id: number, steps: Steps, minutesApart = 0): Promise<void> {
  const { platform } = await findPacket(ctx, id);
  const { limitRpm, solenoid } = await readJudgedPlatform(ctx, platform);
  const expectedA = solenoid === null ? 1 : solenoid.supply_v / (solenoid.ohm + solenoid.wiring_ohm);
  for (const [i, step] of steps({ limitRpm, expectedA }).entries()) {
    const at = new Date(ctx.now().getTime() + i * minutesApart * 60_000);
    await recordFinding({ ...ctx, now: () => at }, id, findingInput.parse(step));
  }
}
