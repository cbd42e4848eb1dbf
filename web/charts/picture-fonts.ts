import plain from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2?url';
import strong from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-600-normal.woff2?url';
import plainExt from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff2?url';
import strongExt from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-600-normal.woff2?url';

const faces = [
  { address: plain, weight: 400, isExtended: false },
  { address: strong, weight: 600, isExtended: false },
  { address: plainExt, weight: 400, isExtended: true },
  { address: strongExt, weight: 600, isExtended: true },
];
/** Letters of the second file of each weight. */
const extended = /[\u0100-\u02ba\u02bd-\u02c5\u1e00-\u1e9f\u2c60-\u2c7f\ua720-\ua7ff]/;

/** The page's type with its files in it, so that a saved picture looks the same where that is not installed. */
export async function loadFontFaces(text: string): Promise<string> {
  const wanted = faces.filter(({ isExtended }) => !isExtended || extended.test(text));
  const rules = await Promise.all(
    wanted.map(async ({ address, weight, isExtended }) => {
      const response = await fetch(address);
      if (!response.ok) throw new Error(`the type file ${address} was answered with ${response.status}`);
      const data = toBase64(new Uint8Array(await response.arrayBuffer()));
      const range = isExtended
        ? 'unicode-range:U+0100-02BA,U+02BD-02C5,U+1E00-1E9F,U+2C60-2C7F,U+A720-A7FF;'
        : '';
      return `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight};${range}src:url(data:font/woff2;base64,${data}) format('woff2')}`;
    }),
  );
  return rules.toReversed().join('');
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}
