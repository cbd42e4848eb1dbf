const SPECIAL = /[\\\t\n\r]/g;
const ESCAPES: Record<string, string> = { '\\': '\\\\', '\t': '\\t', '\n': '\\n', '\r': '\\r' };

/** A text in the format of COPY FROM STDIN. PostgreSQL text cannot hold NUL: it becomes U+FFFD. */
export function toCopyText(text: string): string {
  return text.replaceAll('\0', '\ufffd').replace(SPECIAL, (character) => ESCAPES[character] ?? character);
}

/** A list of texts as an array literal in the format of COPY FROM STDIN. */
export function toCopyArray(texts: readonly string[]): string {
  const literal = texts.map((text) => `"${text.replace(/[\\"]/g, '\\$&')}"`).join(',');
  return toCopyText(`{${literal}}`);
}
