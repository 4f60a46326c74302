/** A fault planted in a job as planned: what it is, the trade's code for it, and what its finding has to say. */
export interface Planted {
  readonly job: 'council-pickup' | 'harbour-launch' | 'theatre'
  readonly fault: string
  /** Code of the fault; the rule that covers it is looked up by it. */
  readonly code: string
  /** End of the finding's subject. */
  readonly at: RegExp
  /** Figures and names the finding has to give. */
  readonly says: readonly RegExp[]
}

const pickup = (code: string, fault: string, at: RegExp, ...says: readonly RegExp[]): Planted => ({
  job: 'council-pickup',
  fault,
  code,
  at,
  says,
})
const launch = (code: string, fault: string, at: RegExp, ...says: readonly RegExp[]): Planted => ({
  job: 'harbour-launch',
  fault,
  code,
  at,
  says,
})
const theatre = (code: string, fault: string, at: RegExp, ...says: readonly RegExp[]): Planted => ({
  job: 'theatre',
  fault,
  code,
  at,
  says,
})

export const PLANTED: readonly Planted[] = [
  pickup('M1', 'head cable crimped from the other face', /main\.P4$/, /8 to 1/, /\b8 signals/),
  pickup('W10', 'return of 1.5 mm² under 12 A', /radio\.J1\.1$/, /1\.30 V/, /A03/),
  pickup('W11', 'return thinner than its feed', /A03|radio\.J1/, /1\.5 mm²/, /6 mm²/),
  pickup('W3', '20 A fuse over 1.5 mm²', /F1|A03/, /20 A/, /A03/),
  pickup('C1', '6 mm² in a contact for 1.5 to 4 mm²', /main\.P1\.1$/, /A02/, /6 mm²/, /1\.5 mm² to 4 mm²/),
  pickup('C1', '0.75 mm² in a D-sub contact', /main\.P2\.1$/, /A20/, /0\.75 mm²/),
  pickup('W15', 'ignition sense on permanent feed', /radio\.J2\.10$/, /permanent/),
  pickup('W14', 'flat in three days', /battery\.POS\.1$/, /3\.0 days/, /350 mA|0\.35 A/),
  pickup('L2', 'relay coil takes more than the output sinks', /radio\.J2\.8|K1/, /180 mA/, /100 mA/),
  pickup('L1', 'horn relay without a suppressor', /main\.K1/),
  pickup('A3', 'two speakers of 4 Ω side by side', /radio\.J2\.1$/, /2(\.0+)? Ω/, /4(\.0+)? Ω/),
  pickup('A1', 'a leg of the bridged output on the body', /radio\.J2\.14$|A24/, /A24|G3|chassis|body/i),
  pickup('A14', 'receive pair split', /radio\.J2\.5$/, /A27/, /A28/),
  pickup('A14', 'transmit pair split', /radio\.J2\.17$/, /A29/, /A30/),
  pickup('P1', 'two returns in one contact', /main\.X1\.5$/, /A28/, /A30/),
  pickup('P2', 'two wires in one contact', /main\.X1\.5$/, /A28/, /A30/),
  pickup('W1', 'switched supply with no fuse', /radio\.J2\.11$|A32$/, /A32|J2\.11/),
  pickup('D5', 'supply on a data pin', /modem\.J1\.9$|radio\.J2\.11$/, /modem\.J1\.9/),
  pickup('M5', 'head and handset plugs are twins', /main\.P4$/, /C1/, /14\.40 V/),
  pickup('G2', 'screen bonded at both ends', /A33-A34|W2/),

  launch('W10', 'feeder of 10 mm² under 35 A', /./, /B0[123]/),
  launch('W10', 'pump on 1.5 mm²', /pump\.J1\.1$/, /B1[02]/),
  launch('W10', 'radio on 2.5 mm²', /radio\.J1\.1$/, /B0[56]/),
  launch('A1', 'bond on a leg of the hailer', /hailer\.J1\.4$|B17/, /B17|BOND|bond|chassis/),
  launch('D1', 'one terminator on the bus', /./, /120(\.0+)? Ω/),
  launch('M5', 'handset has the plug of the bus', /main\.(DS|T2|H2)$/, /14\.40 V/, /handset2\.J1\.2/),
  launch('C8', 'eight rings on a stud', /bars\.N1\.1$/, /8 rings/),
  launch('C3', 'seal too small for the wire', /main\.PU\.1$/, /2\.9 mm/, /1\.7 mm to 2\.4 mm/),
  launch('C4', 'open cavity', /main\.PU$/, /1 open cavity: 3/),
  launch('E3', 'fuse panel entered from above', /main\.FBO$/, /above/),

  theatre('P8', 'power on an audio pin', /ob-van\.LINE\.3$/, /28\.00 V/, /10\.00 V/),
  theatre('A11', 'channel A terminated twice', /trunk\.RT2$/, /2 times/, /100 Ω/),
  theatre('A11', 'channel B not terminated', /main-station\.LINE\.5$/, /not terminated/),
  theatre('M1', 'second headset crimped from the other face', /headsets\.HS2$/, /4 to 1/),
  theatre('G4', 'shell of a tail tied to pin 1', /trunk\.C18$/),
  theatre('G4', 'shell of an outlet tied to pin 1', /trunk\.C19$/),
  theatre('G6', 'one screen as common of both channels', /trunk\.C01$/, /1\.2 Ω/, /1\.45 V/),
  theatre('A12', 'cold leg of the desk left open', /desk\.MTX\.3$/),
  theatre('L1', 'cue relay without a suppressor', /leads\.K1/),
  theatre(
    'M5',
    'microphone line beside 28 V in the same plug',
    /(mic-line\.ML|trunk\.D2)$/,
    /28\.00 V/,
    /mic\.XLR\.2/,
  ),
  theatre('A16', 'electret headset on a pack for dynamic ones', /headset-1\.PAD\.2$/, /electret/),
  theatre('X2', 'two tails with one label', /trunk\.D2$/, /COM A/),
]

/**
 * Warnings and notes that remain on the mended jobs, each with the reason why it is right to leave it. A stop has no place here.
 */
export const REMAINING: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'council-pickup': {},
  'harbour-launch': {
    'screen-bonded harbour-launch/main.W3':
      'Neither the position receiver nor the radio has a pin for a screen; the data is balanced and isolated.',
    'fuse-loaded harbour-launch/fuses.F3':
      'Plotter and buzzer take 4.2 A from 5 A, 84 %: over the usual 80 %, so the warning is right; nothing worse follows from it.',
  },
  theatre: {
    'screen-bonded theatre/leads.W2':
      '200 mm behind the transformer; the programme jack has no contact for a screen.',
  },
  'radio-bench': {},
  'programming-lead': {},
}
