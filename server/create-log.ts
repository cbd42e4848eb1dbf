import { type DestinationStream, pino } from 'pino';

/** What the log keeps of an error, and of the errors that caused it. */
interface DescribedError {
  type: string;
  message: string;
  code?: string;
  routine?: string;
  frames?: string;
  cause?: DescribedError;
}

/** A log in which errors are without the values of the statements that failed: among these are tokens and digests. */
export const createLog = (level: string, destination?: DestinationStream) => {
  const options = { level, serializers: { err: (error: unknown) => describeError(error) } };
  return destination === undefined ? pino(options) : pino(options, destination);
};

/** The same on standard error: for commands whose standard output is an answer, and for threads. */
export const createErrorLog = (level: string) => createLog(level, pino.destination(2));

/** Kind, sentence, code and place of an error; never its other fields, which hold what the statement worked on. */
export function describeError(error: unknown, depth = 0): DescribedError {
  if (!(error instanceof Error)) return { type: typeof error, message: String(error) };
  const { code, routine } = error as { code?: unknown; routine?: unknown };
  const { message, stack = '' } = error;
  // The stack begins with the message, values and all.
  const frames = stack.slice(stack.indexOf(message) + message.length).match(/^ +at .*$/gm);
  return {
    type: error.name,
    message: withoutValues(message),
    ...(typeof code === 'string' ? { code } : {}),
    ...(typeof routine === 'string' ? { routine } : {}),
    ...(frames === null ? {} : { frames: frames.join('\n') }),
    ...(error.cause === undefined || depth > 4 ? {} : { cause: describeError(error.cause, depth + 1) }),
  };
}

/** The database library writes the values below the statement. */
const withoutValues = (message: string): string => message.split('\nparams: ')[0] ?? '';
