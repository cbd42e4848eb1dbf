import type { TestStep } from '#server/contract/words.ts';

export interface StepText {
  title: string;
  whatFor: string;
  how: string[];
  cautions: string[];
}

const empty: StepText = { title: '', whatFor: '', how: [], cautions: [] };

export const stepTexts: Record<TestStep, StepText> = {
  fluid: empty,
  road_test: empty,
  solenoid_current: empty,
  pressure: empty,
  pan: empty,
  cooler: empty,
};

export const packetCautions: string[] = [];
