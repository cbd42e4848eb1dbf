const unit = /(?<=\d) (?=(?:km|mi|rpm|%|°[CF]|days?|weeks?|months?|hours?|h|MJ|Nm)(?![\p{L}\d]))/gu;

/** A sentence that the server made, in which no line break parts a figure from its unit. */
export const keepUnits = (sentence: string): string => sentence.replaceAll(unit, '\u00a0');
