export function findBrowser(): Promise<string | null>;
