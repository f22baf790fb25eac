/**
 * The colours of every page, as CSS custom properties for light and dark. The four phase colours differ in
 * lightness as well as in hue (blue, ochre, rust, plum), so that they stay apart for colour-blind eyes;
 * each also has its own pattern and its own word, so that none is needed to read a picture.
 */
export const PALETTE = `
:root {
  color-scheme: light dark;
  --paper: #f6f3ec; --card: #fffdf8; --ink: #1f2a30; --quiet: #56646b; --line: #d8d2c4; --accent: #14566f;
  --eccentric: #1f6f8f; --stretched-hold: #b58a1f; --concentric: #b4492a; --contracted-hold: #77478a;
  --left: #14566f; --right: #b4492a; --baseline: #1f2a30; --warning: #8a4b00; --problem: #9b1c1c;
  --curve: #1f2a30; --cursor: #c0195f; --focus: #0b5fd0; --stage: #20282c; --stage-ink: #f3efe6;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #14191c; --card: #1c2327; --ink: #ece7db; --quiet: #a9b4b8; --line: #3a444a; --accent: #8cc9e0;
    --eccentric: #6bb9d8; --stretched-hold: #e0bd5c; --concentric: #f0916f; --contracted-hold: #c79adb;
    --left: #8cc9e0; --right: #f0916f; --baseline: #ece7db; --warning: #f0b45c; --problem: #ff9c94;
    --curve: #ece7db; --cursor: #ff7eb3; --focus: #7db7ff; --stage: #0c0f11; --stage-ink: #ece7db;
  }
}
@media print {
  :root {
    color-scheme: light;
    --paper: #fff; --card: #fff; --ink: #000; --quiet: #333; --line: #999; --accent: #000;
    --eccentric: #1f6f8f; --stretched-hold: #b58a1f; --concentric: #b4492a; --contracted-hold: #77478a;
    --left: #14566f; --right: #b4492a; --baseline: #000; --warning: #000; --problem: #000; --curve: #000;
  }
}
`;
