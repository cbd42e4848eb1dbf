/** Hands a file to the browser to keep, under a name. */
export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken it up by then; at once would be too early for some.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

export const saveText = (name: string, type: string, text: string): void =>
  saveFile(name, new Blob([text], { type: `${type};charset=utf-8` }));
