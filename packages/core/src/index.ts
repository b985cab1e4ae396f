export { CAR_INPUTS, type CarInput, carColumn, TYRE_INPUTS, type TyreInput, tyreColumn } from './inputs.ts';
