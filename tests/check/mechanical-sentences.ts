/** What each rule of plugs, crimps and routing says of its tripping example. */
export const mechanicalSentences: Readonly<Record<string, readonly string[]>> = {
  'ends-finished': ['lead.SP1: A02 ends at the splice lead.SP1, and nothing else does'],
  'input-driven': [
    'lead/controller.J.1: controller.J.1 (COR, switching input) is wired and nothing drives it',
  ],
  'colours-agree': ['lead.P1: A01 and A02 are both green (GN) in lead.P1 and go to different pins'],
  'spare-cores-finished': ['lead.W1: W1 has 2 spare cores (2 and 3) and nothing says how they are finished'],
  'spare-contacts-left': ['job/lead.X1: lead.X1 has 1 contact to spare of 10 (usual 2)'],
}
