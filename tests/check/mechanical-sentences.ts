/** What each rule of plugs, crimps and routing says of its tripping example. */
export const mechanicalSentences: Readonly<Record<string, readonly string[]>> = {
  'live-half-shrouded': [
    'lead.P2: lead.P2 has pins, and pin 1 is live with it unplugged: 12.00 V from supply.J1.1',
  ],
  'power-plug-keyed': [
    'lead.P1: lead.P1 carries supply plus and goes in turned or offset',
    'lead.P2: lead.P2 carries supply plus and goes in turned or offset',
  ],
  'vibration-locked': ['job/lead.P1: lead.P1 is held by friction only in engine, which shakes'],
  'threads-match': [
    'lead.P1: The locking screws of lead.P1 are M3 and those of terminal.J are UNC 4-40',
    'lead.P2: The locking screws of lead.P2 are M3 and those of logger.J are UNC 4-40',
  ],
  'insulation-fits-contact': [
    'lead.P1.1: A01 is 2.4 mm over its insulation and the grip of lead.P1.1 takes 0.9 mm to 1.8 mm',
    'lead.P2.1: A01 is 2.4 mm over its insulation and the grip of lead.P2.1 takes 0.9 mm to 1.8 mm',
  ],
  'crimp-tool-named': ['lead.P1: No tool and die are named for the contact crimp-new'],
  'crimp-on-strands': ['lead.A01: A01 is solid and is crimped at lead.P1.1'],
  'pinch-splice-place': [
    'job/lead.SP1: lead.SP1 is a pinch-through splice in bonnet, which is wet and shaking',
  ],
  'panel-crossing': ['job/lead.P1-P2: lead.P1-P2 goes through a bare hole at 300 mm'],
  'bundle-fits': [
    'lead.P1-P2: The bundle through the grommet at 400 mm of lead.P1-P2 is 7.3 mm thick (bore 7 mm)',
  ],
  'length-reaches': ['lead.A01: A01 is 880 mm and its way is 900 mm: it does not reach, by 20 mm'],
  'support-spacing': [
    'job/lead.P1-P2: 275 mm of lead hang free between the clip at 225 mm of lead.P1-P2 and the clip at 500 mm of lead.P1-P2 (limit 250 mm)',
  ],
  'flex-loop': ['lead.A01: A01 is of 7 strands and moves across the hinge in lead.P1-B1'],
  'cable-entry-clamped': ['lead.P1: Nothing holds W1 at lead.P1'],
  'temperature-class': [
    'job/lead.A01: A01 is rated for 80 °C and goes through engine, which gets 105 °C hot',
  ],
  'fit-for-zone': ['job/lead.P1: lead.P1 is IP20 mated, in deck, which asks for IPX4'],
  'drip-loop': ['job/lead.P1: Water runs along the loom into lead.P1: it comes from above'],
  'ends-finished': ['lead.SP1: A02 ends at the splice lead.SP1, and nothing else does'],
  'input-driven': [
    'lead/controller.J.1: controller.J.1 (COR, switching input) is wired and nothing drives it',
  ],
  'colours-agree': ['lead.P1: A01 and A02 are both green (GN) in lead.P1 and go to different pins'],
  'spare-cores-finished': ['lead.W1: W1 has 2 spare cores (2 and 3) and nothing says how they are finished'],
  'spare-contacts-left': ['job/lead.X1: lead.X1 has 1 contact to spare of 10 (usual 2)'],
}
