import type { SetAnalysis } from '../../../../analysis/analyzeSet.js';
import type { BoutReport } from '../../../../analysis/report/setReport.js';
import type { PoseTrack } from '../../../../core/pose/track.js';
import { packFigure } from '../../figure/packFigure.js';
import { shownFigure } from '../../figure/shownFigure.js';
import { boutNames } from '../../words/boutNames.js';
import { PHASES_IN_PLAN_ORDER } from '../../words/phaseWords.js';
import type { PlayerData } from '../browser/playFilm.js';
import { angleCurveChart } from '../charts/angleCurve.js';
import { hatching } from '../charts/hatching.js';
import { html, jsonForScript, type Markup, type MarkupValue, trusted } from '../layout/markup.js';
import { angleName, type PhaseNames } from './wordsOfSet.js';

/** A film small enough to stand in the page itself. */
export interface EmbeddedFilm {
  /** For example "video/mp4". */
  readonly type: string;
  readonly base64: string;
}

export interface PlayerFilm {
  /** Where the film lies as seen from the page; null with `figureOnly`. */
  readonly href: string | null;
  readonly embedded: EmbeddedFilm | null;
}

function degreesTold({ reps }: BoutReport): boolean {
  return reps.some(({ range }) => range !== null);
}

function playerData(analysis: SetAnalysis, track: PoseTrack, words: PhaseNames): PlayerData {
  const { report, curves } = analysis;
  const factor = report.film.slowMotionFactor;
  const names = boutNames(report);
  const rounded = (value: number, digits: number) => Number(value.toFixed(digits));
  return {
    slowMotionFactor: factor,
    fromSeconds: 0,
    toSeconds: rounded(Math.max(report.film.durationSeconds, (track.seconds.at(-1) ?? 0) / factor), 3),
    bouts: report.bouts.map((bout, index) => {
      const curve = curves[index];
      return {
        name: names[index]!,
        reps: bout.reps.map((rep) => ({
          number: rep.number,
          from: rounded(rep.startSeconds, 3),
          to: rounded(rep.endSeconds, 3),
          phases: rep.phases.map((phase) => ({
            word: words[phase.kind],
            from: rounded(phase.startSeconds, 3),
            to: rounded(phase.endSeconds, 3),
            planned: phase.plannedSeconds,
          })),
        })),
        degreesTold: degreesTold(bout),
        curve:
          curve === undefined
            ? null
            : {
                seconds: curve.seconds.map((value) => rounded(value, 2)),
                degrees: curve.degrees.map((value) => rounded(value, 1)),
              },
      };
    }),
  };
}

function stage(track: PoseTrack, film: PlayerFilm): Markup {
  const bare = film.href === null && film.embedded === null;
  const shape = track.width / track.height;
  const video = film.embedded
    ? html`<video class="film" playsinline muted preload="auto" tabindex="-1" aria-label="The film"></video>`
    : film.href === null
      ? null
      : html`<video class="film" playsinline muted preload="auto" tabindex="-1" aria-label="The film" src="${film.href}"></video>`;
  return html`<div class="stage${bare ? ' without-film' : ''}" style="aspect-ratio:${track.width}/${track.height};--shape:${shape.toFixed(4)}">${video}<canvas class="figure" role="img" aria-label="Stick figure of the lifter at the time shown"></canvas></div>`;
}

const KEYS: readonly (readonly [string, string])[] = [
  ['Space', 'play or pause'],
  ['← →', 'one second back or on'],
  [', .', 'about one frame back or on'],
  ['P N', 'previous or next rep'],
  ['F', 'stick figure on or off'],
];

function controls(data: PlayerData, withFilm: boolean): Markup {
  return html`<div class="controls">
<button type="button" id="player-play">Play</button>
<button type="button" id="player-previous" aria-label="Previous rep">‹ rep</button>
<button type="button" id="player-next" aria-label="Next rep">rep ›</button>
<input type="range" id="player-time" aria-label="Time in the film" min="${data.fromSeconds}" max="${data.toSeconds}" step="0.01" value="${data.fromSeconds}">
<span id="player-clock"></span>
<label>Speed <select id="player-speed"><option value="0.25">¼</option><option value="0.5">½</option><option value="1" selected>1</option><option value="2">2</option></select></label>
${withFilm ? html`<label><input type="checkbox" id="player-figure" checked> stick figure</label>` : null}
</div>`;
}

const LEGEND_BOX = { left: 0, right: 28, top: 0, bottom: 14 };

function legend(words: PhaseNames): MarkupValue {
  return html`<ul class="legend">${PHASES_IN_PLAN_ORDER.map(
    (kind) =>
      html`<li><svg viewBox="0 0 28 14" aria-hidden="true"><rect width="28" height="14" fill="var(--${kind})" fill-opacity="0.25"/><path d="${hatching(kind, LEGEND_BOX)}" fill="none" stroke="var(--${kind})" stroke-width="1.5"/></svg>${words[kind]}</li>`,
  )}</ul>`;
}

/** The film beside the driving angle, with the data the page's script needs. */
export function playerSection(
  analysis: SetAnalysis,
  track: PoseTrack,
  film: PlayerFilm,
  words: PhaseNames,
): Markup {
  const { report, curves } = analysis;
  const names = boutNames(report);
  const data = playerData(analysis, track, words);
  const withFilm = film.href !== null || film.embedded !== null;
  const charts = report.bouts.map((bout, index) => {
    const curve = curves[index];
    if (curve === undefined) return null;
    const name = names[index]!;
    return html`<div><h3>${name}: ${angleName(report)}, degrees</h3><div class="curve-scroll" role="region" tabindex="0" aria-label="${name}: curve of the angle"><div class="curve-holder">${angleCurveChart(bout, curve, { boutName: name, angle: angleName(report) })}</div></div></div>`;
  });
  return html`<section aria-labelledby="player-title"><h2 id="player-title">${withFilm ? 'Film and angle' : 'Figure and angle'}</h2>
<div id="player">
<div class="beside${track.width > track.height ? ' landscape' : ''}">
<div class="film-side">${stage(track, film)}
<p id="film-missing" class="key" hidden>The film did not open here: it was moved, or this browser cannot play its format. The figure moves in its place.</p>
${controls(data, withFilm)}<p id="player-words"></p></div>
<div class="curves">${charts}${legend(words)}
<p class="key">The grey band around the curve is its uncertainty.${report.bouts.every(degreesTold) ? null : ' From this view its degrees are only rough: it shows when things happened, not how far they went.'} <span class="screen-only">Click the curve or a rep number in the table to go there.</span></p>
<details><summary>Keys, while the focus is in this box</summary><dl class="keys">${KEYS.map(([keys, meaning]) => html`<dt>${keys.split(' ').map((key) => html`<kbd>${key}</kbd> `)}</dt><dd>${meaning}</dd>`)}</dl></details></div>
</div></div>
<script type="application/json" id="set-data">${jsonForScript(data)}</script>
<script type="application/json" id="figure-data">${jsonForScript(packFigure(shownFigure(track, report), report.film.slowMotionFactor))}</script>
${film.embedded === null ? null : html`<script type="application/octet-stream" id="film-data" data-type="${film.embedded.type}">${trusted(film.embedded.base64.replace(/[^A-Za-z0-9+/=]/g, ''))}</script>`}
</section>`;
}
