/** Text for a line of a header: whatever could end the line becomes a space. */
export const toHeaderText = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim();
