/** The words that a file may use, once, for the schema and for suggestions. */
import { THEORIES } from '../../spacing/theory.ts';
import type {
  CoreMaterialName,
  Family,
  Hand,
  LengthUnit,
  MaterialClass,
  Plane,
  WorkOffset,
  WrapMaterialName,
} from '../types.ts';

export const FAMILIES = [
  'guitar',
  'ukulele',
  'mandolin',
  'dulcimer',
  'bass',
  'other',
] as const satisfies readonly Family[];

export const HANDS = ['right', 'left'] as const satisfies readonly Hand[];

export const LENGTH_UNITS = ['mm', 'in'] as const satisfies readonly LengthUnit[];

export const MATERIAL_CLASSES = [
  'tropical hardwood',
  'hardwood',
  'softwood',
  'plywood',
  'mdf',
  'acrylic',
  'card',
  'shell',
] as const satisfies readonly MaterialClass[];

export const CORE_MATERIALS = [
  'steel',
  'nylon',
  'multifilament nylon',
  'gut',
] as const satisfies readonly CoreMaterialName[];

export const WRAP_MATERIALS = [
  'phosphor bronze',
  '80/20 bronze',
  'nickel-plated steel',
  'nickel',
  'stainless steel',
  'silvered copper',
] as const satisfies readonly WrapMaterialName[];

export const PLANES = ['xy', 'xz', 'yz'] as const satisfies readonly Plane[];

export const WORK_OFFSETS = [
  'G54',
  'G55',
  'G56',
  'G57',
  'G58',
  'G59',
] as const satisfies readonly WorkOffset[];

export const THEORY_NAMES = THEORIES;
