/** 0 dBu in volts rms: the voltage of 1 mW in 600 Ω, sqrt(0.6) = 0.7746 V (IEC 60268-3, ITU-R BS.645). */
export const DBU_VOLTS = Math.sqrt(0.6)

/** Volts rms of a level in dBu. */
export const voltsFromDbu = (dbu: number): number => DBU_VOLTS * 10 ** (dbu / 20)
/** Level in dBu of volts rms. */
export const dbuFromVolts = (volts: number): number => 20 * Math.log10(volts / DBU_VOLTS)
/** Volts rms of a level in dBV (0 dBV = 1 V). */
export const voltsFromDbv = (dbv: number): number => 10 ** (dbv / 20)
/** Level in dBu of a level in dBV: 2.218 more. */
export const dbuFromDbv = (dbv: number): number => dbuFromVolts(voltsFromDbv(dbv))
/** Ratio of two voltages in dB. */
export const voltageRatioDb = (volts: number, reference: number): number => 20 * Math.log10(volts / reference)
