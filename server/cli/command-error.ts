/** A command cannot do what it was asked; the message is for the person who asked. */
export class CommandError extends Error {
  override name = 'CommandError';
}
