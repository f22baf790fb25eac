/** Anything that moves, colours or rewrites what a terminal shows, line breaks included. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROL_CHARACTERS = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g;

/**
 * A message with the control characters of quoted parameters replaced, while its own line breaks stay.
 *
 * @param parameters of the command line, which the message may quote whole or up to or after their first `=`.
 */
export function printable(message: string, parameters: readonly string[]): string {
  const quoted = parameters
    .flatMap((parameter) => [parameter, ...splitAtEquals(parameter)])
    .filter((text) => text.search(CONTROL_CHARACTERS) >= 0)
    .sort((one, other) => other.length - one.length);
  return quoted.reduce(
    (text, parameter) => text.replaceAll(parameter, parameter.replace(CONTROL_CHARACTERS, '\uFFFD')),
    message,
  );
}

function splitAtEquals(parameter: string): readonly string[] {
  const at = parameter.indexOf('=');
  return at < 0 ? [] : [parameter.slice(0, at), parameter.slice(at + 1)];
}
