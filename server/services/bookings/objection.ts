import { SlipdriftError } from '#server/errors.ts';

/** Why something cannot be booked: wrong in itself, in the way of what is there, or not theirs to do. */
export interface Objection {
  code: 'invalid_request' | 'conflict' | 'not_allowed' | 'not_found';
  field: string;
  /** one sentence or two */
  message: string;
}

export const refuse = ({ code, field, message }: Objection): SlipdriftError =>
  new SlipdriftError(code, `${message} Nothing was changed.`, { errors: [{ field, message }] });

export const wrong = (field: string, message: string): Objection => ({
  code: 'invalid_request',
  field,
  message,
});

export const collides = (field: string, message: string): Objection => ({ code: 'conflict', field, message });
