/** A form tool with a straight edge, and how much edge a lathe can take, as a job describes them. */
import { type Fields, object, optional, positive } from '../../core/read.js';

/** A lathe's form tool. */
export interface FormTool {
  /** Length of its straight edge. */
  readonly width: number;
  /**
   * Longest edge that may be in the cut at once without chatter on this lathe: the shop's own experience with its
   * spindle, slides and work (no formula, no source).
   */
  readonly largestWidth: number;
}

/** What a lathe may have for this method. */
export interface FormToolEquipment {
  /** Form tool: a straight edge set to the half angle and fed straight in. */
  readonly formTool?: FormTool;
}

const TOOL: Fields<FormTool> = { width: positive, largestWidth: positive };

/** Reads it. */
export const FORM_TOOL_EQUIPMENT: Fields<FormToolEquipment> = { formTool: optional(object(TOOL)) };
