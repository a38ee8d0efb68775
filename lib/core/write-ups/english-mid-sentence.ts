import { plainText } from '#core/write-ups/plain-text'

// Words of the trade that lose a capital typed by habit when they stand inside a sentence. Names such as Windsor or Danish
// keep theirs, and so does a word that is not among these: it may be somebody's name. Common practice, no source.
const everyday = new Set(
  [
    // Small words, and how something is.
    'a an the one two three four some no all both each its their his her my our at by for from in on off over under to',
    'with without and or not maybe perhaps about around as when where only any every between near inside outside',
    'ground weekdays weekends any available please buyer must needs local cash garage shed house home collect pick',
    'slight minor small faint large big little long short tall low high deep wide narrow thin thick heavy light new old',
    'older original own part parts first second top bottom left right upper lower front back side sides middle centre center',
    'good sound solid real genuine true plain simple bare open closed loose tight worn chipped cracked scratched stained',
    'faded marked missing replaced repaired restored refinished painted primed sealed waxed oiled polished brushed sprayed',
    'lined fixed removable clean cleaned dull bright soft hard smooth rough early late mid pre post turn free',
    'antique vintage modern contemporary traditional country rustic farmhouse industrial retro classical classic coastal',
    'cottage primitive provincial midcentury mass handmade hand home factory',
    // Furniture and its parts.
    'armchair armoire base bed bedside bench blanket body bookcase bookshelf box bureau cabinet carcass cart chair chest',
    'coffee console cot couch crate crib cupboard desk dining display door doors drawer drawers dresser end feet filing foot',
    'footstool frame hall hardware headboard highboy hinges hutch interior kitchen knobs handles pulls ladder legs lid linen',
    'lowboy media mirror nest nesting nightstand occasional office ottoman piano pie plant plate plinth rack rocking rolltop',
    'settle seat shelf shelves sideboard sofa step stool storage telephone table tallboy toy tray trunk vanity wall',
    'wardrobe washstand wine wing writing drop fall gate leaf round square oval corner folding',
    // What it is made of.
    'alder apple ash bamboo basswood beech birch burr burl camphor cane cast cedar cherry chestnut chipboard chrome copper cork',
    'brass bronze iron steel tin aluminium aluminum metal wrought pressed ebony elm engineered fabric fir formica glass granite',
    'hardboard hardwood hemlock hickory iroko jute larch laminate laminated leather lime linoleum mahogany mango maple marble',
    'melamine mixed oak pear particleboard pine pitch plastic plywood poplar rattan reclaimed redwood rosewood rubberwood',
    'rush salvaged sapele sawn satinwood seagrass sheesham slate softwood spruce stone sycamore teak upholstered veneer veneered',
    'walnut wicker willow wood wooden wool yew zinc',
    // Colours.
    'amber aqua aubergine azure barn beige black blue blush bottle brown burgundy butter cerulean charcoal chartreuse chocolate',
    'cinnamon cloud cobalt coral cornflower cream crimson dark denim duck dusty ebonised ebonized ecru eggshell emerald fern',
    'forest fuchsia gold golden graphite grass gray green grey honey indigo ink ivory jade khaki lavender lemon lilac mauve',
    'medium mid midnight mint moss mushroom mustard natural navy ochre off olive orange pale peach pearl petrol pewter pink',
    'plum powder primrose purple raspberry red rose royal ruby russet rust sage salmon sand scarlet sea seafoam sienna silver',
    'sky smoke smoky steel stone straw sunflower tan taupe teal terracotta tomato turquoise ultramarine umber violet warm wheat',
    'white wine yellow',
    // What is on the shelf.
    'abrasive acetone acid acrylic adhesive aerosol alcohol alkyd ammonia anti aniline barrier beeswax bleach bonding brush',
    'carnauba casein caulk chalk chalky citrus cleaner cleaning clear coat conditioner contact cooking crackle cream dead',
    'decking degreaser degreasing denatured detergent dewaxed dish drawer dry drying dust dye enamel epoxy etch etching',
    'exterior fast filler fine finishing flat floor foam furniture gel general gilding glaze glazing gloss glue',
    'grain graining grit hide household indoor interior knotting lacquer latex limewash limewax linseed liquid liner lint liming',
    'masking matt matte metallic methylated microcrystalline milk mild mineral multi odourless odorless oil oxalic paint paper',
    'paste penetrating plaster polish polishing polyurethane primer pumice putty quick resin rottenstone rub',
    'sander sanding sandpaper satin seal sealer sealing self semi sheen shellac shoe silicone soap solvent soy spackle special',
    'spirit spray stain stripper stripping sugar surface tack tannin tinted tinting toner topcoat touch trim tung undercoat',
    'universal urethane varnish vegetable vinegar vinyl washing water waterborne wax waxed wet wiping woodworm',
    'wire yacht',
  ]
    .join(' ')
    .split(' '),
)

/** The words as they stand inside a sentence: without the capital that begins one, unless it may be a name's. */
export function midSentence(words: string): string {
  const text = plainText(words)
  const all = text.split(/[\s,/-]+/).filter((word) => word !== '')
  const [first = '', second = ''] = all
  if (!isCapitalised(first) || !everyday.has(first.toLowerCase())) return text
  // Words that all have capitals are a heading where each is an everyday one, else a name.
  if (!isCapitalised(second)) return lowered(text)
  return all.every(
    (word) =>
      everyday.has(word.toLowerCase()) &&
      (isCapitalised(word) || word === word.toLowerCase()),
  )
    ? text.toLowerCase()
    : text
}

/** Whether a capital begins the word and no other is in it. */
function isCapitalised(word: string): boolean {
  return /^\p{Lu}/u.test(word) && word.slice(1) === word.slice(1).toLowerCase()
}

function lowered(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1)
}
