/** A commented project brief to start from; `ratedrun rules --new-brief` gives it. It loads as it stands. */
export const newBrief = (): string => TEMPLATE;

const TEMPLATE = `# Project brief for Ratedrun. Every list may stay empty; take the "# " away from the examples that you need.
# Minutes are minutes of fire resistance. Facts need the models to be read again, choices only to be judged again.
kind: project-brief
id: my-project
version: "1"

# true only for training and shows: demonstration documents then count as tested, and every output is stamped.
demonstration: false

facts:
  # Property sets besides Pset_WallCommon and its like in which this project's barriers state their fire rating.
  ratingProperties:
    # - { set: Project_Fire, property: FRL }

  # Ratings from drawings, for barriers whose model states none that can be read.
  ratings:
    # - { barrier: Store wall, rating: -/60/60, drawing: A-301, revision: C, note: the model says TBC }

  # What is a barrier beside walls, slabs and roofs, by words in names: wall (a bulkhead), floor (a ceiling) or roof.
  barriers:
    # - { words: [fire ceiling], kind: floor }

  # What words in the names of materials, layers or barriers mean: steelStud, timberStud, shaftWall, masonry,
  # aeratedConcrete, concrete, hollowCore, ribbedDeck, massTimber or sandwichPanel.
  constructions:
    # - { words: [lightweight partition, drywall], construction: steelStud }

  # What words in the names of dampers or of their types mean: fire, fireSmoke, smoke or control.
  damperPurposes:
    # - { words: [motorised FD], purpose: fire }
    # - { words: [VCD, balancing], purpose: control }

  # What words in the names of duct materials mean: steel, stainless, aluminium or plastic.
  ductMaterials:
    # - { words: [galvanised, Z275], material: steel }

  # What access panels are called beside "access panel" and its like, and whether all of them are modelled: then a damper
  # without one within reach has none.
  # accessPanels: { words: [hand hole], modelled: true }

  # What words in the names of ducts, of their types or materials say: flexible, and thicknesses in mm of the sheet, the
  # insulation outside it (0: none) and the lining inside it.
  ducts:
    # - { words: [insulated 50], sheet: 0.8, insulation: 50 }
    # - { words: [flexi], flexible: true }

  # true: all protection of ducts is modelled or listed below, so a duct without any has none. false: it is not known.
  protectionModelled: false

  # Protection that is declared here and not modelled: of a whole system, or of one duct by its name or GlobalId.
  # kind is blanket, board or fireResistingDuct.
  protections:
    # - { system: KX, kind: blanket, layers: 2, integrity: 120, insulation: 120, evidence: drawing M-501 rev B }
    # - { duct: SA-G-2, kind: fireResistingDuct, integrity: 60, insulation: 60, evidence: drawing M-502 rev A }

  # Where spaces name their fire compartment; left out: any property called FireCompartment or Compartment.
  # compartmentProperty: { set: Project_Fire, property: Section }

choices:
  # jurisdiction: where the building stands
  # edition: the code and its edition
  # headMovement: 15
  # How far flanges stand out from ducts: one number, or by size.
  # flangeHeight: { bySize: [{ upTo: { longestSide: 1000 }, value: 20 }, { upTo: { longestSide: 2500 }, value: 30 }] }

  # Once one system is listed here, list them all: what is not listed cannot be told.
  # dampers is allowed, or never for systems that must not have any (kitchen exhaust, say).
  # integrity and insulation are what the protection must reach at least, whatever the barriers ask.
  # testedSystem, testedDamper and fixing are ids from the rule documents.
  systems:
    # - { system: KX, dampers: never, integrity: 120, insulation: 120, testedSystem: a-tested-system, fixing: pins }
    # - { system: SA, dampers: allowed, testedDamper: a-tested-damper }

  # Which tested systems may be used. Where a system above names none, and only these fit, the best fitting is taken.
  testedSystems:
    # - a-tested-system

  # The same for fire dampers.
  testedDampers:
    # - a-tested-damper
`;
