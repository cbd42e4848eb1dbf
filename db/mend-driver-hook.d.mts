export const CORRECTIONS: [found: string, instead: string][];
