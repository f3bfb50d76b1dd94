// The server's types under short names; the file beside is generated from its OpenAPI description.
import type { components } from './types.gen';

type Schemas = components['schemas'];
export type View = Schemas['View'];
export type Sheet = Schemas['Sheet'];
export type Piece = Schemas['Piece'];
export type Shown = Schemas['Shown'];
export type SaidStage = Schemas['SaidStage'];
export type SaidPoint = Schemas['SaidPoint'];
export type SaidFigure = Schemas['SaidFigure'];
export type SaidFinding = Schemas['SaidFinding'];
export type SaidRemedy = Schemas['SaidRemedy'];
export type SaidCurve = Schemas['SaidCurve'];
export type SaidInput = Schemas['SaidInput'];
export type Stage = Schemas['Stage'];
export type Severity = Schemas['Severity'];
export type Handle = Schemas['Handle'];
export type Stop = Schemas['Stop'];
export type Mast = Schemas['Mast'];
export type Horizon = Schemas['Horizon'];
export type Change = Schemas['Change'];
export type FileText = Schemas['FileText'];
export type Saved = Schemas['Saved'];
export type Fault = Schemas['Fault'];
export type FieldMap = Schemas['Map'];
export type Legend = Schemas['Legend'];
export type Class = Schemas['Class'];
export type MapMark = Schemas['MapMark'];
export type Contour = Schemas['Contour'];
export type Heard = Schemas['Heard'];
export type Probe = Schemas['Probe'];
export type Profile = Schemas['Profile'];
export type Paper = Schemas['Paper'];
export type Refusal = Schemas['Refusal'];
export type Event = Schemas['Event'];
/** One change of the station file. */
export type Edit = Record<string, unknown>;
