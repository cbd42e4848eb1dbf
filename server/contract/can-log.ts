/** A line of either form that can-utils write, in the first part of a file. */
const CAN_LINE =
  /^[ \t]*\(\d{1,10}\.\d{1,9}\)[ \t]+\S{1,64}[ \t]+(?:[RT]X[ -][- BE]*)?[0-9A-F]{3,8}(?:#|[ \t]+\[\d)/im;

/** Whether a file that begins so is a CAN log, whatever its name. */
export const isCanLog = (beginning: string): boolean => CAN_LINE.test(beginning);

/** Content type of a CAN log, for deliveries; there is no registered one. */
export const CAN_LOG_TYPE = 'text/x-candump';
