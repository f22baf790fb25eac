/**
 * Breaks plain text at spaces into lines of at most `width` characters, the first led by `first` and the others
 * by as many spaces. A word longer than the line stays whole: a path that is cut in two can't be copied.
 */
export function wrapped(text: string, width: number, first = ''): string {
  const room = Math.max(1, width - first.length);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  lines.push(line);
  const indent = ' '.repeat(first.length);
  return lines.map((content, index) => `${index === 0 ? first : indent}${content}`).join('\n');
}
