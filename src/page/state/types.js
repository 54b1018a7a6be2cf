/**
 * The shapes the page works with. Those that come from the program are written in docs/formats;
 * here stands only what the page reads of them.
 *
 * @typedef {{x: number, y: number}} Spot a place: picture pixels or screen pixels, as its owner says
 * @typedef {{x: number, y: number, how: string}} Landmark
 * @typedef {Readonly<Record<string, Landmark>>} Landmarks
 *
 * @typedef {object} LandmarkGuide
 * @property {string} id
 * @property {string} title
 * @property {string} definition
 * @property {string} finding
 * @property {string} mistakes
 * @property {boolean} required
 * @property {boolean} only_shod
 * @property {string} [group] main, check or more
 * @property {boolean} [dot] may a stick-on dot mark it?
 * @property {"none" | "edge" | "line" | "circle"} [snap] what it settles on in a radiograph
 * @property {string} [snap_of] a name that all landmarks of one line or circle share
 * @property {number} schematic_x 0..1 from the drawing's left, toe or lateral side to the right
 * @property {number} schematic_y 0..1 from its top
 *
 * @typedef {object} Protocol
 * @property {string} id
 * @property {string} view
 * @property {string} legs all, fore or hind
 * @property {string} shows radiograph, foot or limb
 * @property {boolean} from_the_side
 * @property {string} title
 * @property {string} schematic
 * @property {LandmarkGuide[]} landmarks
 *
 * @typedef {{id: string, title: string, view: string, unit: string, what: string, sign: string,
 *   needs: string[]}} MeasurementGuide
 *
 * @typedef {object} Practice
 * @property {Protocol[]} protocols
 * @property {MeasurementGuide[]} measurements
 * @property {{id: string, words: string}[]} red_flags
 * @property {OfferedAim[]} [aims]
 * @property {ShoeKind[]} [shoes]
 * @property {{name: string, step: number, most: number}[]} [amounts] what a plan may change
 * @property {Record<string, string>} words
 *
 * @typedef {object} ShoeKind
 * @property {string} id
 * @property {string} title
 * @property {string} words for who makes it
 * @property {string} bar
 * @property {string} frog_support
 * @property {{least: number, most: number}} web_mm
 * @property {{least: number, most: number}} roll_rise_mm
 * @property {string} caution
 *
 * @typedef {object} ShoeFacts
 * @property {string} kind empty: not chosen
 * @property {string} bar
 * @property {string} frog_support
 * @property {number} web_mm 0: not said
 * @property {number} roll_rise_mm
 *
 * @typedef {object} OfferedAim
 * @property {string} measurement
 * @property {boolean} for_fore
 * @property {boolean} for_hind
 * @property {number | null} low
 * @property {number | null} high
 * @property {number} counts_as_one
 * @property {string} why
 * @property {string} source
 *
 * @typedef {{kind: string} & Record<string, any>} Scale
 *
 * @typedef {object} PictureEntry
 * @property {string} digest
 * @property {string} file_name
 * @property {number} columns
 * @property {number} rows
 * @property {string} taken
 * @property {string} view
 * @property {string} [protocol]
 * @property {string} limb
 * @property {string} toward
 * @property {string} shoeing
 * @property {string} loading
 * @property {string} sides_checked
 * @property {Record<string, any>} hints
 * @property {Scale} scale
 *
 * @typedef {object} Visit
 * @property {string} id
 * @property {string} date
 * @property {string} last_trim
 * @property {string} note
 * @property {PictureEntry[]} pictures
 *
 * @typedef {object} Case
 * @property {string} id
 * @property {Record<string, any>} horse
 * @property {Record<string, any>} owner
 * @property {string} yard
 * @property {Record<string, any>} farrier
 * @property {Record<string, any>} vet
 * @property {Record<string, any>} history
 * @property {Visit[]} visits oldest first
 *
 * @typedef {object} CaseSummary
 * @property {string} id
 * @property {string} horse
 * @property {string} yard
 * @property {string} newest_visit
 *
 * @typedef {object} Window
 * @property {number} centre
 * @property {number} width
 * @property {string} shape
 * @property {string} [name]
 *
 * @typedef {{name: string, first_input: number, bits: number, entries: number[]}} Lookup
 *
 * @typedef {object} PictureInfo
 * @property {string} kind
 * @property {number} columns
 * @property {number} rows
 * @property {number} offset
 * @property {number} rescale_slope
 * @property {number} rescale_intercept
 * @property {boolean} inverse
 * @property {Window[]} windows
 * @property {Window} window
 * @property {Lookup} [voi_lut]
 * @property {Lookup} [modality_lut] instead of the rescale
 * @property {number} [pixel_aspect] height of a pixel over its width; 1 when absent
 * @property {Record<string, any>} facts
 * @property {Record<string, any>} spacing
 * @property {string[]} notes
 *
 * @typedef {object} Band
 * @property {number | null} [low]
 * @property {number | null} [high]
 * @property {string} population
 * @property {string} standing
 * @property {string} source
 *
 * @typedef {object} Measurement
 * @property {string} id
 * @property {string} title
 * @property {string} unit
 * @property {number} decimals
 * @property {number} [value]
 * @property {number} [standard_uncertainty]
 * @property {number} [low]
 * @property {number} [high]
 * @property {string} status
 * @property {string} [reason]
 * @property {string[]} [missing]
 * @property {Band} [band]
 * @property {string[]} [cautions] ids of the checks that ask for caution
 *
 * @typedef {object} Check is the picture fit to measure on?
 * @property {string} id
 * @property {string} title
 * @property {string} verdict fit, caution, unfit or not-checked
 * @property {string} sentence
 * @property {string[]} touches ids of measurements
 * @property {string[]} points ids of landmarks that it looks at
 *
 * @typedef {object} CalibrationSaid
 * @property {boolean} has_scale
 * @property {string} sentence
 * @property {number} relative_uncertainty
 * @property {[number, number]} [pixel_mm] width and height of a pixel; absent without a scale
 * @property {string[]} [cautions]
 * @property {string[]} conflicts
 *
 * @typedef {{id: number, x: number, y: number}} CardCorner
 * @typedef {{paper: string, corners: CardCorner[]}} CardSeen
 * @typedef {{x: number, y: number, diameter_px: number, unsure_px: number}} Ball
 * @typedef {{n: number, id: string, x: number, y: number, diameter_px: number, colour: number,
 *   confidence: number}} Offer
 *   a dot that was found, its number from the top, and the landmark that it may be (empty: nobody
 *   can say); nothing until a person confirms it
 *
 * @typedef {object} PostureRow one deviation of a limb that was seen standing and hanging free
 * @property {string} id
 * @property {string} title
 * @property {string} what
 * @property {string} unit
 * @property {number} decimals
 * @property {Said} standing
 * @property {Said} hanging
 * @property {Said} gone
 *
 * @typedef {{value: number, standard_uncertainty: number}} Said
 * @typedef {{limb: string, from: string, to: string, title: string, what: string, first: Said, second: Said,
 *   more: Said}} JointRow one coffin joint in two side views, degrees
 *
 * @typedef {object} OverlayItem
 * @property {string} kind
 * @property {string} ink
 * @property {string} about
 * @property {[number, number]} [from]
 * @property {[number, number]} [to]
 * @property {[number, number]} [centre]
 * @property {[number, number]} [radius]
 * @property {[number, number][]} [points]
 * @property {[number, number]} [at]
 * @property {string} [text]
 * @property {string} [anchor]
 * @property {string} [how]
 *
 * @typedef {object} Result
 * @property {CalibrationSaid} calibration
 * @property {Check[]} [checks]
 * @property {string[]} contradictions
 * @property {Measurement[]} measurements
 * @property {OverlayItem[]} overlay
 *
 * @typedef {object} ReadingLine one turn of one reader; the fields behind `seen` only when it may be
 * @property {string} reader
 * @property {number} turn
 * @property {string} sight open or blind
 * @property {boolean} done
 * @property {boolean} seen
 * @property {string} [saved]
 * @property {number} [revision]
 * @property {boolean} [working] the one that plan and paper use
 * @property {boolean} [revealed]
 * @property {Landmarks} [landmarks]
 *
 * @typedef {object} AgreedPoint from the first reader's to the second's
 * @property {string} id
 * @property {string} title
 * @property {number} [across]
 * @property {number} [along]
 * @property {number} [distance]
 * @property {boolean} [wide] further apart than the spread in use explains
 * @property {string} [only] the one reader who placed it
 *
 * @typedef {{value: number, interval: [number, number]}} Icc
 *
 * @typedef {object} AgreedNumber first less second
 * @property {string} id
 * @property {string} title
 * @property {string} unit
 * @property {number} decimals
 * @property {number} first
 * @property {number} second
 * @property {number} difference
 * @property {number} smallest_detectable_change
 * @property {boolean} wide
 * @property {number} pairs
 * @property {{bias: number, lower: number, upper: number}} [limits]
 * @property {Record<string, Icc>} [icc]
 *
 * @typedef {object} PictureAgreement
 * @property {"readers" | "turns"} between
 * @property {{reader: string, turn: number}} first
 * @property {{reader: string, turn: number}} second
 * @property {"mm" | "px"} unit
 * @property {number} fewest_pairs
 * @property {AgreedPoint[]} landmarks
 * @property {AgreedNumber[]} measurements
 *
 * @typedef {object} ProposalLine
 * @property {string} limb
 * @property {string} what
 * @property {string} amount
 * @property {string} why
 * @property {string} caution
 * @property {string} watch
 * @property {string} source
 * @property {{measurement: string, before: number, after: number,
 *   uncertainty_of_change: number}[]} expected
 * @property {string} decision
 * @property {string} note
 *
 * @typedef {object} AimOutcome
 * @property {string} measurement
 * @property {string} title
 * @property {string} unit
 * @property {number} decimals
 * @property {string} state
 * @property {number} before
 * @property {number} after
 * @property {boolean} beyond_reach
 *
 * @typedef {object} Way
 * @property {string} means
 * @property {Record<string, number>} change
 * @property {string} amount
 * @property {boolean} reached
 * @property {AimOutcome[]} outcomes
 * @property {{sentence: string}[]} in_the_way
 * @property {{sentences: string[]}} costs
 * @property {{measurement: string, uncertainty_of_change: number}[]} predictions
 * @property {{words: string[]}} stages
 *
 * @typedef {object} Fit
 * @property {string} limb
 * @property {string[]} refused
 * @property {{reason: string}[]} left_out
 * @property {string[]} conflicts
 * @property {Way[]} ways
 *
 * @typedef {{asked: {limb: string, aims: unknown[]}, found: Fit}} FitAsked
 *
 * @typedef {object} Predicted
 * @property {string} limb
 * @property {string} measurement
 * @property {string} title
 * @property {string} unit
 * @property {number} decimals
 * @property {number} before
 * @property {number} after
 * @property {number} change
 * @property {number} uncertainty_of_change
 *
 * @typedef {object} Outlook of one changed foot
 * @property {string} limb
 * @property {number} week
 * @property {Predicted[]} predictions now against that week
 * @property {string} no_growth why growth isn't foreseen; empty when it is
 * @property {{week: number, measurement: string} | null} review
 * @property {{ratio: number, low: number, high: number, words: string} | null} mid_stance
 * @property {{ratio: number, low: number, high: number, words: string} | null} breakover
 *
 * @typedef {{variable: string, at: Spot, per_unit: Spot}} Grip picture px, and px for one mm or degree
 *
 * @typedef {object} Tried a change of a foot as far as the limits let it
 * @property {string[]} refused why nothing may be tried; then nothing else counts
 * @property {Record<string, number>} change amounts by name; what is left out is 0
 * @property {string} amount in words
 * @property {{variable: string, wished: number, held: number, sentence: string}[]} held_back
 * @property {ShoeFacts} shoe
 * @property {{refused: string, not_given: string[], fitting: string[]}} shoe_tried
 * @property {Predicted[]} predictions
 * @property {Outlook | null} outlook
 * @property {{digest: string, read_by: string, overlay: OverlayItem[], grips: Grip[]}[]} pictures
 *
 * @typedef {object} Plan
 * @property {string} visit
 * @property {number} version
 * @property {number} revision grows with every save of the version
 * @property {string} made
 * @property {string} made_by
 * @property {ProposalLine[]} lines
 * @property {string[]} stops
 * @property {string[]} locks
 * @property {string[]} remeasure
 * @property {{name: string, registration: string, date: string, note: string} | null} [sign_off]
 */
export {};
