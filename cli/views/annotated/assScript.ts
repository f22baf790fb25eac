/**
 * Advanced SubStation Alpha (script version 4+), the text format of subtitles that libass draws: only the
 * few parts this program uses.
 */
export interface AssEvent {
  /** Higher layers are drawn over lower ones. */
  readonly layer: number;
  /** Film time, seconds. */
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly style: 'Text' | 'Shape';
  /** Override tags and text; text from outside goes through `assText` first. */
  readonly content: string;
}

/** Red, green, blue, each 0 to 255. */
export type Colour = readonly [number, number, number];

/** Times have hundredths; rounding down keeps a frame inside the event that begins with it. */
export function assTime(seconds: number): string {
  const hundredths = Math.floor(Math.max(0, seconds) * 100 + 1e-6);
  const pad = (value: number) => String(value).padStart(2, '0');
  const minutes = Math.floor(hundredths / 6000);
  return `${Math.floor(minutes / 60)}:${pad(minutes % 60)}:${pad(Math.floor(hundredths / 100) % 60)}.${pad(hundredths % 100)}`;
}

/** Text as it stands: nothing in it can begin a tag, a line or a field. */
export function assText(text: string): string {
  return text.replace(/[{}\\]/g, ' ').replace(/\s+/g, ' ');
}

/** `&HBBGGRR&` */
export function assColour([red, green, blue]: Colour): string {
  const hex = (value: number) => value.toString(16).padStart(2, '0').toUpperCase();
  return `&H${hex(blue)}${hex(green)}${hex(red)}&`;
}

/** The whole script for pictures of the given size. */
export function assScript(size: { width: number; height: number }, events: readonly AssEvent[]): string {
  const style = (name: string) =>
    `Style: ${name},sans-serif,20,&H00FFFFFF,&H00FFFFFF,&H00000000,&H00000000,0,0,0,0,100,100,0,0,1,0,0,7,0,0,0,1`;
  const lines = events
    .filter((event) => assTime(event.toSeconds) !== assTime(event.fromSeconds))
    .map(
      (event) =>
        `Dialogue: ${event.layer},${assTime(event.fromSeconds)},${assTime(event.toSeconds)},${event.style},,0,0,0,,${event.content}`,
    );
  return `[Script Info]
ScriptType: v4.00+
PlayResX: ${size.width}
PlayResY: ${size.height}
ScaledBorderAndShadow: yes
WrapStyle: 2

[V4+ Styles]
Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, MarginV, Encoding
${style('Text')}
${style('Shape')}

[Events]
Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text
${lines.join('\n')}
`;
}

export interface TextLook {
  readonly x: number;
  readonly y: number;
  /** Numeric keypad: 7 top left, 8 top middle, 9 top right, 4 middle left … */
  readonly anchor: 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9;
  readonly size: number;
  readonly colour: Colour;
  readonly bold?: boolean;
}

/** One line of text at a place. */
export function placedText(text: string, look: TextLook): string {
  const bold = look.bold === true ? '\\b1' : '';
  return `{\\an${look.anchor}\\pos(${look.x.toFixed(0)},${look.y.toFixed(0)})\\fs${look.size.toFixed(0)}${bold}\\1c${assColour(look.colour)}\\bord0}${assText(text)}`;
}

/** A filled shape; `path` holds moves and lines in pixels of the picture. */
export function placedShape(
  path: string,
  colour: Colour,
  look: { readonly opacity?: number; readonly border?: number } = {},
): string {
  const alpha = Math.round((1 - (look.opacity ?? 1)) * 255)
    .toString(16)
    .padStart(2, '0')
    .toUpperCase();
  return `{\\an7\\pos(0,0)\\1c${assColour(colour)}\\1a&H${alpha}&\\3c&H101010&\\bord${look.border ?? 0}\\p1}${path}`;
}

/** The path of a rectangle. */
export function rectanglePath(left: number, top: number, right: number, bottom: number): string {
  const at = (value: number) => value.toFixed(1);
  return `m ${at(left)} ${at(top)} l ${at(right)} ${at(top)} ${at(right)} ${at(bottom)} ${at(left)} ${at(bottom)}`;
}
