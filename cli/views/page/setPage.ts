import type { SetAnalysis } from '../../../analysis/analyzeSet.js';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { DEFAULT_TOLERANCE, type Tolerance } from '../../../analysis/scoring/tempoVerdict.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { boutNames } from '../words/boutNames.js';
import { playerScript } from './browser/pageScript.js';
import { pageDocument } from './layout/document.js';
import { html, type Markup } from './layout/markup.js';
import { evennessPicture } from './set/evennessPicture.js';
import { type AboutSet, headerSection } from './set/headerSection.js';
import { findingsSection, methodSection } from './set/methodSection.js';
import { phasesPicture } from './set/phasesPicture.js';
import { type EmbeddedFilm, playerSection } from './set/playerSection.js';
import { rangePicture } from './set/rangePicture.js';
import { repsSection } from './set/repsTable.js';
import { restsPicture } from './set/restsPicture.js';
import { sidesPicture } from './set/sidesPicture.js';
import { filmName, type PhaseNames, wordsOfPhases } from './set/wordsOfSet.js';

export interface SetPageOptions {
  /** Address of the film as seen from the page, percent-encoded; null links none. */
  readonly filmHref: string | null;
  /** A small copy to keep inside the page; used before `filmHref`. */
  readonly embeddedFilm?: EmbeddedFilm;
  /** Shows the moving figure instead of the film, so that no face is in the page. */
  readonly figureOnly: boolean;
  /** The exercise's words for its phases. */
  readonly words?: Exercise['words'] | null;
  readonly about?: AboutSet;
  /** How far a phase may be from the plan; the default is the larger of 0.3 s and 15 %. */
  readonly tolerance?: Tolerance;
}

function picturesSection(analysis: SetAnalysis, words: PhaseNames, tolerance: Tolerance): Markup {
  const { report } = analysis;
  const names = boutNames(report);
  const perBout = report.bouts.flatMap((bout, index) => {
    const name = names[index]!;
    return [
      phasesPicture(report, bout, name, words, tolerance),
      rangePicture(report, bout, name),
      evennessPicture(bout, name, words),
    ];
  });
  return html`<section aria-labelledby="pictures-title"><h2 id="pictures-title">In pictures</h2>
<div class="pictures">${perBout}${sidesPicture(report, words)}${restsPicture(report)}</div></section>`;
}

/**
 * One set as one self-contained HTML file: it asks nothing of a network, and with `figureOnly` or an
 * embedded film nothing of its folder either.
 */
export function renderSetPage(analysis: SetAnalysis, track: PoseTrack, options: SetPageOptions): string {
  const { report } = analysis;
  const words = wordsOfPhases(options.words ?? null);
  const shown = options.figureOnly
    ? { href: null, embedded: null }
    : { href: options.embeddedFilm ? null : options.filmHref, embedded: options.embeddedFilm ?? null };
  const hasBouts = report.bouts.length > 0;
  const body = html`${headerSection(report, options.words ?? null, options.about ?? {})}
<main>
${hasBouts ? repsSection(report, words) : findingsSection(report)}
${playerSection(analysis, track, shown, words)}
${hasBouts ? picturesSection(analysis, words, options.tolerance ?? DEFAULT_TOLERANCE) : null}
${hasBouts ? findingsSection(report) : null}
${methodSection(report)}
</main>
<footer><p>Made by tempofilm from ${filmName(report)}.</p></footer>`;
  return pageDocument({
    title: `${report.exercise.name}: ${filmName(report)}`,
    body,
    script: playerScript(),
  });
}
