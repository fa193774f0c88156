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
  # aeratedConcrete, concrete, hollowCore, ribbedDeck, massTimber or sandwichPanel; or what one layer is that is no
  # construction: air, insulation, board, furring or finish.
  constructions:
    # - { words: [lightweight partition, drywall], construction: steelStud }
    # - { words: [ventilated zone], layer: air }

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

  # What supports of ducts are called beside "hanger" and its like, and whether all of them are modelled (of all systems, or
  # of those named): then one that is not seen is not there.
  # supports: { words: [drop wire], modelled: true, systems: [KX] }

  # What words in the names of ducts, of their types or materials say: flexible, and thicknesses in mm of the sheet, the
  # insulation outside it (0: none) and the lining inside it.
  ducts:
    # - { words: [insulated 50], sheet: 0.8, insulation: 50 }
    # - { words: [flexi], flexible: true }

  # Properties of ducts, of their types or systems, that entries of systems below go by.
  ductProperties:
    # - { set: Project_Fire, property: Strategy }

  # Where ducts state a fire rating of their own, since IFC has no property for it. means: required is what the duct must
  # reach; reached is what it has, by a blanket, a board or, where no kind is given, by itself (fireResistingDuct).
  ductRatingProperties:
    # - { set: Project_Fire, property: RequiredFRL, means: required }
    # - { set: Project_Fire, property: DuctFRL, means: reached, kind: fireResistingDuct }

  # true: all protection of ducts is modelled or listed below, so a duct without any has none. false: it is not known.
  protectionModelled: false

  # Protection that is declared here: of a whole system, of one duct by its name or GlobalId (which goes first), or by
  # words in the names of the coverings that the models have on ducts. kind is blanket, board, fireResistingDuct, or none
  # for a duct that is left out of what its system has.
  protections:
    # - { system: KX, kind: blanket, layers: 2, integrity: 120, insulation: 120, evidence: drawing M-501 rev B }
    # - { duct: SA-G-2, kind: fireResistingDuct, integrity: 60, insulation: 60, evidence: drawing M-502 rev A }
    # - { covering: [fire blanket], kind: blanket, layers: 2, integrity: 120, insulation: 120, evidence: the model }
    # - { duct: KX transition, kind: none, evidence: drawing M-501 rev B }

  # Where spaces name their fire compartment; left out: any property called FireCompartment or Compartment.
  # compartmentProperty: { set: Project_Fire, property: Section }

  # Words in the names of spaces and zones that are shafts, beside shaft, riser, Schacht, gaine and the like.
  shafts:
    # - Rohrkanal

choices:
  # The code that holds, as the checks of codes write it (\`ratedrun rules\` lists them): each check of a code applies only
  # where jurisdiction and edition are its own, and never along with those of another. edition may be a list.
  # jurisdiction: where the building stands
  # edition: the code and its edition
  # headMovement: 15
  # How far what is built may lie off what is modelled, in mm: limits of what is built on site are met only by that much more.
  # siteTolerance: 5
  # How far flanges stand out from ducts: one number, or by size; left out: what is usual, which proves nothing.
  # flangeHeight: { bySize: [{ upTo: { longestSide: 1000 }, value: 20 }, { upTo: { longestSide: 2500 }, value: 30 }] }
  # Room to build: between the protection of ducts and what stands beside them, for hands and tools (50 mm where nothing is
  # said); the free depth that hands need before a face of a barrier; whether people build in shafts (true, false, or words in
  # the names of those that they enter); shaftsNamed: true where every shaft is named as one.
  # room: { working: 100, hands: 300, shaftsEntered: [service shaft], shaftsNamed: true }

  # What ducts hang on where a support does not name it: rods, bearer, how far the bearer and the rods stand off the outside
  # of the protection, and the density of thermal insulation in kg/m³.
  # supports: { rod: M10, rods: 2, bearer: L 40x40x4, bearerBeyond: 50, rodFromSide: 25, insulationDensity: 40 }

  # What may be changed to mend a finding; each left out is as here (common practice, no source). How far a duct may be moved
  # (mm; 0: not at all) and which ways, what stays where it is (terminal, equipment, fan, silencer, damper or flexible),
  # how far each edge of an opening may be cut back and how far built up in rated construction, which edges, and whether
  # openings may be made. costs compares changes, in any unit: move 20, movePerMm 0.1, perElement 10 (that goes along),
  # perLength 5 (that becomes longer or shorter), widen 40, widenPerMm 0.2, rebuild 60, rebuildPerMm 0.4, newOpening 80.
  # changes: { ductBy: 200, ductWays: [up, down, level], fixed: [terminal, equipment, fan], widenBy: 200, rebuildBy: 200, sides: [top, bottom, left, right], newOpenings: true, costs: { move: 20, widen: 40 } }

  # The take-off; it changes no outcome. stocks is what is delivered, before what the documents of tested systems say: of
  # angle, rod, bearer, strap, tape (by length) or blanket, board, localBuildUp, boardCollar (length and width), mm. kerf is
  # what a cut takes away; offcuts from keepOffcutsFrom on, both ways, are kept; angles meet mitred or butted; packLitres is what a
  # pack of sealant holds; fittingAllowance is added to the surface of bends, branches and transitions (0.1: a tenth).
  # strapOverlap is a strap's on itself, rodLength that of rods of which nothing says it, filletLeg that of such beads.
  # prices: of (a kind of material: blanket, board, localBuildUp, packing, sealant, angle, screw, pin, strap, boardCollar, tape,
  # accessPanel, rod, bearer) or material (the id of one, from a report), only for testedSystem where that is given; per piece,
  # m, m2, l or kg of what is built in, or per roll, sheet, bar or pack of what is ordered. rates: hours per piece, m, m2, l or
  # kg, and pricePerHour. The first entry that fits counts; what has no price has no cost.
  # takeoff: { kerf: 3, keepOffcutsFrom: 500, angleCorners: mitred, packLitres: 0.6, strapOverlap: 100, currency: EUR, stocks: [{ of: angle, length: 6000 }, { of: boardCollar, length: 2500, width: 1200 }], prices: [{ of: blanket, per: roll, price: 180 }, { of: pin, per: piece, price: 0.12 }], rates: [{ of: blanket, per: m2, hours: 0.4, pricePerHour: 65 }] }

  # What the project itself asks of access openings for cleaning, for one system, one service or all: the greatest distance
  # along the duct between them, and from a change of direction over 45°.
  access:
    # - { service: kitchenExhaust, spacing: 2000, fromBend: 1000, source: cleaning specification 4.2 }

  # Once one system is listed here, list them all: what is not listed cannot be told.
  # Each entry picks ducts by exactly one of: system (its name), systemType (its predefined type), property (of the duct, its
  # type or its system; listed under ductProperties above), compartment (one that the run serves). The first entry that picks
  # a duct holds for it. Where it can't be told whether an entry picks a duct, because the model does not say what the
  # entry goes by, no later entry is asked: put names of systems first, then types, properties, compartments.
  # service is what the system is for: kitchenExhaust, smokeExhaust, stairPressurisation, carParkExhaust or
  # applianceVentilation. Left out, the words in the names of the system tell it. It brings defaults for the rest.
  # dampers is allowed, or never for systems that must not have any (kitchen exhaust, say).
  # resists is always (all of the run outside the compartment that it serves must resist fire) or whereUndampered (only where
  # it passes a rated barrier without a fire damper).
  # fire is where the fire is that it must resist: inside, outside or both.
  # integrity and insulation are what the protection must reach at least, whatever the barriers ask.
  # testedSystem, testedDamper, fixing and detail are ids from the rule documents; of what is left out the best fitting is
  # taken. pressure is what is in its ducts, as below.
  systems:
    # - { system: KX, dampers: never, integrity: 120, insulation: 120, testedSystem: a-tested-system, fixing: pins }
    # - { system: CP, service: carParkExhaust, resists: always, fire: both }
    # - { system: SA, dampers: allowed, resists: whereUndampered, testedDamper: a-tested-damper }
    # - { systemType: EXHAUST, dampers: allowed }
    # - { property: { set: Project_Fire, property: Strategy, value: smoke }, service: smokeExhaust }
    # - { compartment: Plant room, dampers: allowed }

  # What is changed of the services, whose words and defaults stand in rules/services.yaml: further words that show a
  # service, byWords: false for none at all, other values for dampers, resists, fire, integrity and insulation, or
  # noDefault to take a default away.
  services:
    # - { service: kitchenExhaust, words: [wok line], fire: inside, insulation: noDefault }
    # - { service: carParkExhaust, byWords: false }

  # How far ducts and barriers move against each other, mm; a detail must have been tested to bear it.
  # movement: 10

  # The most pressure in the ducts over and under that around them, Pa.
  # pressure: { over: 500, under: 500 }

  # Which tested systems may be used. Where a system above names none, and only these fit, the best fitting is taken.
  testedSystems:
    # - a-tested-system

  # Penetrations, by tag or key, for which that is settled, whatever fits better.
  pinned:
    # - { penetration: K7F2-9, testedSystem: a-tested-system, fixing: pins, detail: framed-wall }

  # Which tested fire dampers may be used.
  testedDampers:
    # - a-tested-damper

  # What a person with authority conceded for one finding, by its key. It stands beside the outcome and changes nothing; it
  # lapses when what was measured or the limit is another, or after the day it expires. \`ratedrun concession\` prints entries
  # with the numbers of a report.
  concessions:
    # - key: "0123456789abcdef"
    #   reason: the gap was inspected and filled before the ceiling closed
    #   grantedBy: A. Person
    #   role: building surveyor
    #   reference: BS-2026-014
    #   date: 2026-03-02
    #   expires: 2026-12-31
    #   measured: 62
    #   limit: { atLeast: 10, atMost: 50 }

  # What people say of findings, by the key of each; it stands beside the outcome and changes nothing. date is a day, or a day
  # and time in UTC.
  comments:
    # - { key: "0123456789abcdef", text: asked the fabricator for the next size down, author: A. Person, date: 2026-03-02 }
`;
