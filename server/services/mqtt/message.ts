/** A message on its way into storage. */
export interface Message {
  topic: string;
  payload: Buffer;
  /** tells the broker that it is kept; nothing where the broker does not ask, or its connection is gone */
  acknowledge(): void;
}
