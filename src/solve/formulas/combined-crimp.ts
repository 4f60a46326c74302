import { sizeAtLeast, type WireGauge } from '../../base/wire-size.ts'

/** Copper area in mm² of several wires in one barrel: their sum (NASA-STD-8739.4 paragraph 19.11, as circular mils). */
export function combinedAreaMm2(areasMm2: readonly number[]): number {
  return areasMm2.reduce((sum, area) => sum + area, 0)
}

/** The stock size, the next larger one, whose contact suits several wires in one barrel; undefined beyond the series. */
export function combinedSize(
  areasMm2: readonly number[],
  series: 'metric' | 'awg' = 'awg',
): WireGauge | undefined {
  return sizeAtLeast(combinedAreaMm2(areasMm2), series)
}
