const SPECIAL = /[\\\t\n\r]/g;
const ESCAPES: Record<string, string> = { '\\': '\\\\', '\t': '\\t', '\n': '\\n', '\r': '\\r' };

/** A text in the format of COPY FROM STDIN. PostgreSQL text cannot hold NUL: it becomes U+FFFD. */
export function toCopyText(text: string): string {
  return text.replaceAll('\0', '\ufffd').replace(SPECIAL, (character) => ESCAPES[character] ?? character);
}
