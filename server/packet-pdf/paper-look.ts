import { buildLook, type Look } from '#web/charts/look.ts';

/**
 * The light ground of the screens, on the white of the sheet: tinting a whole page costs toner and contrast. A test
 * holds all but the two papers equal to the page's tokens.
 */
export const paperTokens: Readonly<Record<string, string>> = {
  '--paper': '#ffffff',
  '--paper-sunk': '#f4f2ec',
  '--ink': '#1c1a16',
  '--ink-soft': '#575246',
  '--ink-faint': '#6d6758',
  '--hairline': '#dcd6c8',
  '--hairline-strong': '#8c8574',
  '--accent': '#00616b',
  '--grade-hold': '#a82a12',
  '--grade-book': '#7d5200',
  '--grade-watch': '#3d4fa3',
  '--grade-steady': '#575246',
  '--grade-unknown': '#6d6758',
  '--group-plum': '#8f2a70',
  '--group-ochre': '#7a5600',
  '--group-blue': '#2a5db0',
  '--font': 'Atkinson Hyperlegible Next',
};

export const paperLook: Look = buildLook((name) => paperTokens[name] ?? '', 'light');
