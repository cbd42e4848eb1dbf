/** What a mapping could be called, from the name of a file: without its endings, its day and its clock. */
export function proposeName(fileName: string): string {
  const words = fileName
    .replace(/(\.[A-Za-z]{1,8}\d?){1,3}$/, '')
    .replaceAll(
      /(?<!\d)(?:19|20)\d{2}[-_.]?\d{2}[-_.]?\d{2}(?:[T_ -]?\d{2}[-_.:]?\d{2}(?:[-_.:]?\d{2})?)?(?!\d)/g,
      ' ',
    )
    .replaceAll(/(?<!\d)\d{1,2}[-_.]\d{1,2}[-_.](?:19|20)\d{2}(?!\d)/g, ' ')
    .replaceAll(/[^\p{L}\p{N}.-]+/gu, ' ')
    .replaceAll(/(^|\s)[.-]+|[.-]+(?=\s|$)/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return (
    words
      .replace(/^[^\p{L}\p{N}]+/u, '')
      .slice(0, 64)
      .trim() || 'export'
  );
}
