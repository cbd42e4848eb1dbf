/** The body itself, not one of its lines, is at fault: reading it ends here. The message is for the sender. */
export class BodyFault extends Error {
  override name = 'BodyFault';
  readonly code: 'body_broken' | 'body_too_large' | 'body_empty';

  constructor(code: BodyFault['code'], message: string, cause?: unknown) {
    super(message, { cause });
    this.code = code;
  }
}
