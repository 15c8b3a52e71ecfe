/** Every method as a person meets it: each of the list must be here, or this does not compile. */
import type { MethodSheet, MethodTypes } from '../method/method.js';
import { ballCentresSheet } from '../offset/between-balls/sheet.js';
import { formToolSheet } from '../offset/form-tool/sheet.js';
import { guideBarSheet } from '../offset/guide-bar/sheet.js';
import { setOverSheet } from '../offset/set-over/sheet.js';
import { topSlideSheet } from '../offset/top-slide/sheet.js';
import { ballCutterSheet } from '../sphere/ball-cutter/sheet.js';
import { stepsSheet } from '../sphere/steps/sheet.js';
import { swivelToolSheet } from '../sphere/swivel-tool/sheet.js';
import { tiltedSweepSheet } from '../sphere/tilted-sweep/sheet.js';
import type { AnyMethod, MethodName } from './methods.js';

type Sheets = { readonly [N in MethodName]: MethodSheet<Extract<AnyMethod, { readonly name: N }>> };

const SHEETS: Sheets = {
  'ball-centres': ballCentresSheet,
  'ball-cutter': ballCutterSheet,
  'form-tool': formToolSheet,
  'guide-bar': guideBarSheet,
  'set-over': setOverSheet,
  steps: stepsSheet,
  'swivel-tool': swivelToolSheet,
  'tilted-sweep': tiltedSweepSheet,
  'top-slide': topSlideSheet,
};

/** The sheet of a method; its types are those of the method's own plan. */
export function sheetOf(name: MethodName): MethodSheet<MethodTypes> {
  return SHEETS[name] as unknown as MethodSheet<MethodTypes>;
}
