/** Text of one line: line breaks and runs of spaces are one space. */
export const oneLine = (text: string): string => text.replace(/[\s\u00a0]+/g, ' ').trim();
