/** HTML that is safe to place in a page: made only by `html` and `trusted`. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

export type MarkupValue = string | number | null | Markup | readonly MarkupValue[];

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it may stand between tags or inside a quoted attribute. */
function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character]!);
}

function render(value: MarkupValue): string {
  if (value === null) return '';
  if (value instanceof Markup) return value.text;
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return escapeHtml(value);
  return value.map(render).join('');
}

/** Template tag: everything put in is text unless it is `Markup` already. */
export function html(strings: TemplateStringsArray, ...values: readonly MarkupValue[]): Markup {
  let text = strings[0]!;
  values.forEach((value, index) => {
    text += render(value) + strings[index + 1]!;
  });
  return new Markup(text);
}

/** Markup this program made itself (a chart, a style sheet). Never text from a film, a plan or a note. */
export function trusted(text: string): Markup {
  return new Markup(text);
}

/**
 * JSON that can stand inside a `<script type="application/json">`: no character sequence in it can end
 * the element or begin a comment.
 */
export function jsonForScript(value: unknown): Markup {
  return new Markup(
    JSON.stringify(value).replace(
      /[<>&\u2028\u2029]/g,
      (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
    ),
  );
}
