/** A name of the catalog as SQL takes it, whatever characters it has. */
export const quoteName = (name: string): string => `"${name.replaceAll('"', '""')}"`;
