/** One package of a lock file, as far as it is judged. */
interface LockEntry {
  license?: string;
  integrity?: string;
  resolved?: string;
  link?: boolean;
  hasInstallScript?: boolean;
  dependencies?: Record<string, string>;
}

export function judgeLock(
  lock: { packages: Record<string, LockEntry> },
  allowed: { scripts: Record<string, string>; licences: Record<string, string> },
  readLicence?: (path: string) => string | undefined,
): string[];
