export { type Bar, type BarRow, type Bars, labelledBars } from './bars.ts';
export { type DecisionPicture, decisionPicture } from './decision-picture.ts';
export { type GapByAngle, type GapSpread, gapByAngle } from './gap-by-angle.ts';
export { type HeightDots, heightDots, type TubHeights } from './height-dots.ts';
export { type HeightCurve, type HeightLines, type HeightPoint, heightLines } from './height-lines.ts';
export { type Markup, markup } from './markup.ts';
export type { PictureWords } from './picture.ts';
export { type RiskByHeight, type RiskCurve, type RiskPoint, riskByHeight } from './risk-by-height.ts';
export { type Dropped, type RunShown, type SideView, sideView } from './side-view.ts';
