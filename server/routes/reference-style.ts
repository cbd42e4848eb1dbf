import { createHash } from 'node:crypto';

/** Paper and ink, hairlines instead of boxes; the screens' own style sheet is not at hand where they are not built. */
export const referenceStyle = `
:root { color-scheme: light dark; --ground: #faf7f1; --ink: #1d1c1a; --soft: #5c5851; --line: #d8d2c6; --accent: #14567a; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #171c22; --ink: #ece6da; --soft: #aaa599; --line: #38414b; --accent: #8cc4e4; }
}
body { margin: 0 auto; max-width: 74rem; padding: 2rem 1.25rem 6rem; background: var(--ground); color: var(--ink);
  font: 1rem/1.55 'Atkinson Hyperlegible Next', system-ui, sans-serif; font-variant-numeric: tabular-nums; }
header { max-width: 46rem; }
h1 { font-size: 1.75rem; line-height: 1.2; margin: 0.5rem 0 1rem; }
h2 { font-size: 1.125rem; margin: 2.5rem 0 0.5rem; }
h3 { font-size: 1.125rem; margin: 0 0 0.25rem; overflow-wrap: anywhere; }
a { color: var(--accent); text-underline-offset: 0.2em; }
:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
nav { display: grid; grid-template-columns: repeat(auto-fill, minmax(17rem, 1fr)); gap: 0 2rem;
  border-block: 1px solid var(--line); padding-bottom: 1.5rem; }
nav ul { list-style: none; margin: 0; padding: 0; }
nav a { display: inline-block; padding: 0.2rem 0; text-decoration: none; overflow-wrap: anywhere; }
nav b, h3 b { text-transform: uppercase; font-size: 0.8125rem; letter-spacing: 0.04em; color: var(--soft); margin-right: 0.4em; }
article, main section { border-bottom: 1px solid var(--line); padding: 1.75rem 0; }
main p { max-width: 46rem; margin: 0.25rem 0; }
table { border-collapse: collapse; width: 100%; margin: 0.75rem 0 0; font-size: 0.9375rem; }
caption { text-align: left; color: var(--soft); font-size: 0.8125rem; }
th, td { text-align: left; vertical-align: top; font-weight: 400; padding: 0.3rem 1rem 0.3rem 0; border-top: 1px solid var(--line);
  overflow-wrap: anywhere; }
th { width: 13rem; }
code { font: 0.9375em ui-monospace, monospace; }
@media (max-width: 40rem) { tr { display: block; border-top: 1px solid var(--line); padding: 0.4rem 0; }
  th, td { display: block; width: auto; border: 0; padding: 0.1rem 0; } }
`;

/** Names the style above in the content security policy, which lets in no other. */
export const REFERENCE_STYLE_HASH = `'sha256-${createHash('sha256').update(referenceStyle).digest('base64')}'`;
