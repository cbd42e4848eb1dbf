import type { PacketFlag } from '#server/contract/packets.ts';
import type { ReportContent } from '#server/contract/repair.ts';
import type { FindingInput, Judgement } from '#server/contract/test-steps.ts';
import type { Units } from '#server/services/words/length-words.ts';

/** What stands in the JSON columns of a packet and its findings. */
export type StoredFlag = Record<Units, PacketFlag>;
export type StoredReport = ReportContent;
export type StoredJudgement = Judgement;

/** Of a recorded trace: the file is kept beside it. */
export interface TraceInput {
  step: 'road_test';
  file: string;
  rows: number;
  notes: string;
}
export type StoredInput = FindingInput | TraceInput;

export const isTraceInput = (input: StoredInput): input is TraceInput => 'file' in input;
