import type { ConnectorInput } from '../part-kinds.ts'
import { coaxFamilies } from './coax.ts'
import { dinFamilies } from './din.ts'
import { dsubFamilies } from './dsub.ts'
import { jackFamilies } from './jack.ts'
import { m12Families } from './m12.ts'
import { modularFamilies } from './modular.ts'
import { rectangularFamilies } from './rectangular.ts'
import { screwTerminalFamilies } from './screw-terminal.ts'
import { studAndRingFamilies } from './studs-and-rings.ts'
import { tabFamilies } from './tab.ts'
import { usbFamilies } from './usb.ts'
import { vehicleFamilies } from './vehicle.ts'
import { xlrFamilies } from './xlr.ts'

/** Every standard connector family. */
export const standardFamilies = (): ConnectorInput[] => [
  ...dsubFamilies(),
  ...xlrFamilies(),
  ...jackFamilies(),
  ...modularFamilies(),
  ...m12Families(),
  ...dinFamilies(),
  ...coaxFamilies(),
  ...rectangularFamilies(),
  ...studAndRingFamilies(),
  ...screwTerminalFamilies(),
  ...tabFamilies(),
  ...vehicleFamilies(),
  ...usbFamilies(),
]
