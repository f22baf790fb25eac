import { createHash } from 'node:crypto';
import { html, type Markup, trusted } from './markup.js';
import { PAGE_STYLE } from './style.js';

export interface PageDocument {
  /** Title of the window, plain text. */
  readonly title: string;
  readonly body: Markup;
  /** The page's own script; null for a page that only stands still. */
  readonly script: string | null;
}

/**
 * What the page may do: run the one script whose hash stands here, and play a film. It may ask for nothing
 * from a network; text from a film, a plan or a note could not run even if it got through as markup.
 */
function contentSecurityPolicy(script: string | null): string {
  const hash =
    script === null ? "'none'" : `'sha256-${createHash('sha256').update(script).digest('base64')}'`;
  return [
    "default-src 'none'",
    `script-src ${hash}`,
    "style-src 'unsafe-inline'",
    'img-src data:',
    "media-src 'self' file: blob:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** One self-contained page: style, script, pictures and data inside the file. */
export function pageDocument({ title, body, script }: PageDocument): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${contentSecurityPolicy(script)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<link rel="icon" href="data:,">
<style>${trusted(PAGE_STYLE)}</style>
</head>
<body>
${body}
${script === null ? null : html`<script>${trusted(script)}</script>`}
</body>
</html>
`.text;
}
