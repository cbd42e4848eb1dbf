const entities: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it has to stand in HTML, also within quotes. */
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (one) => entities[one] ?? one);
