/** The body itself, not one of its lines, is at fault: reading it ends here. The message is for the sender. */
export class BodyFault extends Error {
  override name = 'BodyFault';
  readonly code: 'body_broken' | 'body_stalled' | 'body_too_large' | 'body_empty';
  /** the line was cut or went silent: the same body will come again, whole */
  readonly cutOff: boolean;

  constructor(
    code: BodyFault['code'],
    message: string,
    { cause, cutOff = false }: { cause?: unknown; cutOff?: boolean } = {},
  ) {
    super(message, { cause });
    this.code = code;
    this.cutOff = cutOff;
  }
}
