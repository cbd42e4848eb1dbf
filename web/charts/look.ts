import type { Grade } from '#server/contract/words.ts';

/** Colours and type that a chart draws with: from the page's tokens on screen, from constants in a PDF. */
export interface Look {
  ground: 'light' | 'dark';
  paper: string;
  paperSunk: string;
  ink: string;
  inkSoft: string;
  inkFaint: string;
  hairline: string;
  hairlineStrong: string;
  accent: string;
  grade: Record<Grade, string>;
  /** of groups that are compared, in the order in which they are given out */
  groups: readonly string[];
  fontFamily: string;
  smallPx: number;
}

/** The custom properties of tokens.css behind each part of a look. */
const lookTokens = {
  paper: '--paper',
  paperSunk: '--paper-sunk',
  ink: '--ink',
  inkSoft: '--ink-soft',
  inkFaint: '--ink-faint',
  hairline: '--hairline',
  hairlineStrong: '--hairline-strong',
  accent: '--accent',
} as const;

/** Builds a look from whatever gives the value of a custom property. */
export function buildLook(tokenOf: (name: string) => string, ground: Look['ground']): Look {
  return {
    ground,
    paper: tokenOf(lookTokens.paper),
    paperSunk: tokenOf(lookTokens.paperSunk),
    ink: tokenOf(lookTokens.ink),
    inkSoft: tokenOf(lookTokens.inkSoft),
    inkFaint: tokenOf(lookTokens.inkFaint),
    hairline: tokenOf(lookTokens.hairline),
    hairlineStrong: tokenOf(lookTokens.hairlineStrong),
    accent: tokenOf(lookTokens.accent),
    grade: {
      hold: tokenOf('--grade-hold'),
      book: tokenOf('--grade-book'),
      watch: tokenOf('--grade-watch'),
      steady: tokenOf('--grade-steady'),
      unknown: tokenOf('--grade-unknown'),
    },
    groups: ['--ink', '--accent', '--group-plum', '--group-ochre', '--group-blue', '--ink-soft'].map(tokenOf),
    fontFamily: tokenOf('--font'),
    smallPx: 13,
  };
}
