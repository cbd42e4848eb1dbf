/** Text that JSON of the database can hold: it takes neither NUL nor half a character. */
export const toPlainText = (text: string): string => text.replace(/[\p{Cc}\p{Cs}]/gu, '\ufffd');
