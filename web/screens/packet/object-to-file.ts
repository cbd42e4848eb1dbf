const mostMib = 64;

/** What is wrong with a file before it is sent; null where nothing is. */
export function objectToFile(file: Pick<File, 'name' | 'size'>): string | null {
  if (file.size === 0) return `${file.name} is empty.`;
  if (file.size > mostMib * 1024 * 1024)
    return `${file.name} has ${Math.ceil(file.size / (1024 * 1024))} MiB; at most ${mostMib} MiB are taken. Send the part with the road test.`;
  return null;
}
