/** Line of a saved case that holds the call that it came from: a remark to whoever else reads the file. */
const CALL = /^# call: (\{.*\})$/m;

/** A case file's text with the call at its end. @param call  as one line of JSON */
export const withCall = (text: string, call: string): string =>
  `${text.replace(CALL, '').trimEnd()}\n\n# call: ${call}\n`;

/** The call that a case file holds; undefined when it holds none. */
export const callIn = (text: string): string | undefined => CALL.exec(text)?.[1];
