/** A backup cannot be written, read or restored; the message is one or two sentences for the person who asked. */
export class BackupError extends Error {
  override name = 'BackupError';
}
