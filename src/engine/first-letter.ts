/** A word at the beginning of a sentence, or taken from there. */

/** `open any day` as `Open any day`. */
export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `Crews start at 04:00` as `crews start at 04:00`. */
export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
