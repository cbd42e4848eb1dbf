import type { Grade } from '#server/contract/words.ts';

/** The tones of `web/ui/tokens.css` as data: a chart, also one in a PDF, cannot read CSS variables. */
export interface Palette {
  paper: string;
  paperSunk: string;
  ink: string;
  inkSoft: string;
  inkFaint: string;
  hairline: string;
  hairlineStrong: string;
  accent: string;
  grade: Record<Grade, string>;
}

export const palettes: Record<'light' | 'dark', Palette> = {
  light: {
    paper: '#f8f5ee',
    paperSunk: '#f0ece1',
    ink: '#1c1a16',
    inkSoft: '#575246',
    inkFaint: '#6d6758',
    hairline: '#dcd6c8',
    hairlineStrong: '#8c8574',
    accent: '#00616b',
    grade: { hold: '#a82a12', book: '#7d5200', watch: '#3d4fa3', steady: '#575246', unknown: '#6d6758' },
  },
  dark: {
    paper: '#161b20',
    paperSunk: '#1d242a',
    ink: '#e9e3d5',
    inkSoft: '#b5b1a4',
    inkFaint: '#9a978c',
    hairline: '#323a41',
    hairlineStrong: '#737a7d',
    accent: '#62cbd2',
    grade: { hold: '#ff8b6e', book: '#e3b04b', watch: '#a6b5ff', steady: '#b5b1a4', unknown: '#9a978c' },
  },
};
