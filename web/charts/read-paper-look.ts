import { buildLook, type Look } from './look.ts';

/** The look by day, whichever the reader has: pictures that are taken out lie on paper. */
export function readPaperLook(): Look {
  const root = document.documentElement;
  const before = root.getAttribute('data-theme');
  // Nothing is painted between here and the end of this function.
  root.setAttribute('data-theme', 'light');
  const style = getComputedStyle(root);
  const look = buildLook((name) => style.getPropertyValue(name).trim(), 'light');
  if (before === null) root.removeAttribute('data-theme');
  else root.setAttribute('data-theme', before);
  // The writer of SVG puts it between double quotes as it is.
  return { ...look, fontFamily: look.fontFamily.replaceAll('"', "'") };
}
