import { stem } from '#core/captions/stem'
import type { StepKind } from '#core/journal/vocabulary'

/** How much a word speaks for each kind of step: 1 is as much as the kind's own name. */
export type KindWeights = Readonly<Partial<Record<StepKind, number>>>

/** Words of the trade as they are spoken, and the steps that they speak for. */
export type TradePhrase = {
  /** Stems, in order. A word that must be said exactly so stands with `=` before it. */
  readonly words: readonly string[]
  readonly kinds: KindWeights
  /** Whether it names what is done rather than a thing: then its tense tells whether it is being done. */
  readonly act: boolean
}

/**
 * Common practice, no source: how refinishers speak of their work, in British and American words. First the steps that
 * the words speak for, then what is done, then things. Words with no steps are there to be passed over: a water stain is
 * no staining.
 */
const vocabulary: readonly {
  readonly kinds: KindWeights
  readonly acts?: string
  readonly things?: string
}[] = [
  {
    kinds: { clean: 1 },
    acts: 'clean; clean down; clean off; clean everything; degrease; wash; wash down; scrub; scrub down; deep clean; give it a clean; give it a wash',
    things:
      'degreaser; cleaner; sugar soap; tsp; washing up liquid; dish soap; soapy water; warm water and soap; grime; grease; years of dirt; dirt and grime; dirt and grease; cleaning vinegar; all purpose cleaner',
  },
  {
    kinds: { clean: 0.6, sand: 0.15 },
    acts: 'wipe down; wipe it down; wipe everything down; wipe the whole thing down; rinse; rinse off; rinse it off',
    things: 'microfibre cloth; microfiber cloth; dirt; dirty; filthy; vinegar',
  },
  {
    kinds: { clean: 0.25, sand: 0.25, scuff: 0.25 },
    acts: 'vacuum; hoover; hoover up; dust off; wipe off the dust; wipe away the dust; clean up; tack off',
    things: 'tack cloth; tack rag; dust',
  },
  {
    kinds: { repair: 1 },
    acts: 'repair; fix; mend; patch; glue; re glue; reglue; clamp; clamp up; fill; fill in; rebuild; dowel; level; replace the missing',
    things:
      'wood filler; woodfiller; filler; two part filler; body filler; spackle; putty; wood putty; epoxy; epoxy putty; wood glue; clamp; missing veneer; chipped veneer; loose veneer; lifting veneer; broken; wobbly; split; crack; gouge; superglue; super glue; dowel',
  },
  {
    kinds: { repair: 0.5 },
    things: 'glue; dent; chip; hole; veneer; damage; gap; dings; ding',
  },
  {
    kinds: { strip: 1 },
    acts: 'strip; strip off; strip back; strip down; scrape; scrape off; scrape away; peel off; take off the old finish; take the old finish off; remove the old finish; remove the old paint; remove the paint; remove the varnish; take off the old paint; get the old finish off; get the old paint off; take the finish off; remove the finish; remove the old varnish; neutralise; neutralize',
    things:
      'stripper; paint stripper; paint remover; varnish remover; finish remover; stripping gel; stripping agent; scraper; plastic scraper; heat gun; citrus stripper; gel stripper; goop; gunk; paint and varnish remover; chemical stripper; carbide scraper; =layers of paint',
  },
  {
    kinds: { strip: 0.4 },
    things:
      'old finish; old varnish; old paint; steel wool; wire wool; bare wood; mineral spirits; white spirit; residue; cling film; plastic wrap',
  },
  {
    kinds: { sand: 1, scuff: 0.6 },
    acts: 'sand; sand down; sand back; sand off; hand sand; machine sand; sand smooth; rub down; rub it down; work through the grits',
    things:
      'sander; orbital sander; orbital; random orbit sander; palm sander; belt sander; detail sander; mouse sander; sandpaper; sanding paper; sanding block; sanding pad; sanding disc; sanding disk; sanding sponge; grit; grits; coarse grit; fine grit; abrasive; raw wood',
  },
  {
    kinds: { scuff: 1, sand: 0.75 },
    acts: 'scuff; scuff sand; scuff up; lightly sand; light sand; light sanding; quick sand; quick sanding; key; key the surface; give it a key; rough up; roughen; roughen up; de nib; denib; knock back; knock down; knock off; knock the shine off; take the sheen off; dull down; smooth out; smooth it out; sand between coats; sand lightly; deglaze',
    things:
      'scuff pad; abrasive pad; scouring pad; finishing pad; nibs; dust nibs; sheen; liquid deglosser; fine sandpaper; sanding between coats; light scuff; nonwoven pad; very fine grit',
  },
  {
    kinds: { condition: 1.2 },
    acts: 'condition; pre stain; prestain; condition the wood',
    things:
      'conditioner; wood conditioner; pre stain conditioner; pre stain wood conditioner; prestain conditioner; washcoat; wash coat',
  },
  {
    kinds: { prime: 1 },
    acts: 'prime; undercoat; spot prime; block the stains; block the tannins; seal the knots; stop the bleed through; stop bleed through',
    things:
      'primer; coat of primer; bonding primer; stain blocker; stain blocking primer; stain blocking; stain block; stain killing primer; knotting; knotting solution; undercoat; shellac primer; shellac based primer; adhesion primer; high adhesion primer; grey primer; gray primer; white primer',
  },
  {
    kinds: { prime: 0.4 },
    things:
      'bleed through; bleedthrough; bleeding through; tannin; tannin bleed; knots; adhesion',
  },
  {
    kinds: { prime: 0.6, seal: 0.7 },
    acts: 'shellac',
    things: 'shellac; clear shellac; dewaxed shellac; sanding sealer',
  },
  {
    kinds: { coat: 1 },
    acts: 'paint; repaint; paint on; apply the paint; lay off; cut in',
    things:
      'paint; enamel; enamel paint; chalk paint; chalky paint; mineral paint; milk paint; eggshell; satinwood; gloss paint; furniture paint; cabinet paint; latex; latex paint; emulsion; acrylic; paint job; coat of paint; coat of colour; coat of color; base coat; basecoat; topcoat of paint; coat of enamel',
  },
  {
    kinds: { coat: 0.6, prime: 0.45, seal: 0.45 },
    acts: 'spray; roll on; roll it on; roll; brush on; brush it on',
    things:
      'sprayer; spray gun; paint sprayer; hvlp; airless; foam roller; mini roller; roller; spray booth; paintbrush; paint brush; synthetic brush; brush',
  },
  {
    kinds: { coat: 0.4, stain: 0.15 },
    things: 'colour; color; coverage; brush strokes; brush marks; pigment',
  },
  {
    kinds: { stain: 1.1 },
    acts: 'stain; gel stain; dye; re stain; restain; apply the stain; wipe on the stain; wipe off the excess; wipe off any excess; wipe the excess; wipe away the excess',
    things:
      'gel stain; wood stain; water based stain; oil based stain; wood dye; dye; stain colour; stain color; dark stain; walnut stain; oak stain; coat of stain',
  },
  {
    kinds: { glaze: 1.1 },
    acts: 'glaze; antique; age the',
    things: 'glaze; antiquing glaze; glazing medium; antiquing medium',
  },
  {
    kinds: { seal: 1.1 },
    acts: 'seal; seal it; seal in; varnish; lacquer; clear coat; clearcoat; top coat; topcoat; protect; protect it; polyurethane',
    things:
      'sealer; sealant; varnish; lacquer; clear coat; clearcoat; polyurethane; poly; water based poly; wipe on poly; clear; clear finish; matt varnish; matte varnish; satin varnish; clear varnish; protective coat; protection; protective finish; coat of clear; coat of varnish; coat of poly; coat of lacquer; finish coat; clear top coat; clear topcoat',
  },
  {
    kinds: { seal: 0.8, coat: 0.5 },
    things: 'top coat; topcoat',
  },
  {
    kinds: { seal: 0.8, wax: 0.7, stain: 0.2 },
    acts: 'oil; oil the; apply the oil',
    things:
      'hard wax oil; hardwax oil; danish oil; tung oil; linseed oil; teak oil; finishing oil; wood oil; coat of oil',
  },
  {
    kinds: { wax: 1.1 },
    acts: 'wax; apply the wax; buff; buff it; buff up; buff out; buff off; buff to a shine',
    things:
      'wax; clear wax; furniture wax; dark wax; white wax; finishing wax; paste wax; beeswax; soft wax; wax brush; coat of wax; polish',
  },
  {
    kinds: { hardware: 1.1 },
    acts: 'remove the hardware; take off the hardware; take the hardware off; put the hardware back; polish the brass; polish the hardware; unscrew the handles; clean the hardware; soak the hardware',
    things:
      'hardware; handle; knob; new knobs; =pulls; drawer pull; ring pull; cup pull; bail pull; cup handle; hinge; escutcheon; backplate; back plate; key plate; castor; caster; brass; brassware; latch; drawer handle; ferrule; ironmongery; brass polish; metal polish',
  },
  {
    kinds: { hardware: 0.35, assemble: 0.2 },
    acts: 'unscrew; screw in',
    things: 'screw; bolt; key; lock',
  },
  {
    kinds: { liner: 1.1 },
    acts: 'line the drawers; line the drawer; line the inside; line each drawer; line; paper the drawers; wallpaper; paste the paper; decoupage the drawers',
    things:
      'liner; drawer liner; drawer lining; lining; drawer paper; lining paper; wallpaper; wallpaper paste; wrapping paper; shelf liner; paper liner; peel and stick; fabric; scented liner; contact paper; patterned paper',
  },
  {
    kinds: { liner: 0.5 },
    acts: 'trim the paper; cut the paper; measure the drawers; measure the drawer',
    things: 'paper; craft knife; box cutter; bubbles',
  },
  {
    kinds: { detail: 1.1 },
    acts: 'stencil; gild; hand paint; distress; dry brush; tape off the; apply the transfer; rub on; decoupage; mask off',
    things:
      'stencil; transfer; furniture transfer; decal; gold leaf; silver leaf; gilding; gilding wax; gilding paste; gold paint; appliques; applique; overlay; stripe; pinstripe; line work; details; detailing; raised stencil; decoupage',
  },
  {
    kinds: { detail: 0.4 },
    things: 'pattern; motif; accent; trim; masking tape; painters tape',
  },
  {
    kinds: { assemble: 1.1 },
    acts: 'assemble; reassemble; put together; put it all back together; put it back together; put everything back together; put everything back; back together; put the drawers back; put the doors back; put the top back; reattach; refit; screw the top back; attach the top; attach the legs; hang the doors; rehang the doors; put it all back; put back together; drawers back in; doors back on; legs back on; top back on; final assembly',
    things: 'assembly; reassembly',
  },
  {
    kinds: { assemble: 0.7, hardware: 0.7 },
    acts: 'put back on; back on; put the handles back; put the handles back on; put the knobs back; attach; install; screw back on; fit the; fit; refit the handles; put the new handles on; put the new knobs on',
  },
  // Plain words, as those say it who do not talk shop.
  {
    kinds: { clean: 0.7 },
    acts: 'make it clean; must be clean; wash it; wash everything; get it clean; wash it all; wash the whole',
    things:
      'hot water; warm water; soap; sponge; bucket; nail brush; toothbrush; brown water; water was; water is; water came; rinse water; scrubbing brush; cloth that is wrung',
  },
  {
    kinds: { repair: 0.7 },
    acts: 'stop up; squeeze out; pull it together; draw it together; hold it together; let in a; nail it; pin it; patch up; plug',
    things:
      'white glue; hide glue; loose joint; loose joints; loose; strap; sawdust and glue; dust and glue; splinter; holes; nail holes; broken; mice',
  },
  {
    kinds: { strip: 0.65 },
    acts: 'take it all off; take it away; come off; come away; come up in; lift off; get it off; take the paint off; take the old paint off; pull it to me; go away; dig out; soften; bubble up',
    things:
      'old coating; old lacquer; old polish; blade; cabinet scraper; flakes; curls; =layers; back to wood; back to the wood; back to bare wood',
  },
  {
    kinds: { sand: 0.7, scuff: 0.3 },
    acts: 'make it smooth; make it flat; make it even; smooth; go along the grain; go with the grain; with the grain; along the grain; take the scratches out; take down; take back; take it back; flat',
    things:
      'swirl; swirls; scratches; smooth; with paper; the paper; dust bag; coarse paper',
  },
  {
    kinds: { scuff: 0.8, sand: 0.5 },
    acts: 'take the shine off; take away the shine; take off the shine; kill the shine; dull it; make it dull; make it matt; go over it with a pad',
    things:
      'shine; shiny; dull; tooth; fine paper; worn out paper; worn paper; brown paper; grey pad; gray pad; green pad; worn out pad; soft pad; quick scuff; pimples; fuzz; grip; something to grip',
  },
  {
    kinds: { prime: 0.75 },
    acts: 'block; block it; keep the stain from; stop it coming through; goes under; go under',
    things:
      'under coat; white stuff; keeps the old stain; come through; coming through; comes through; holds on; hold on to; under the paint; underneath; ground coat; undercoater; bleed; bleeds; barrier coat',
  },
  {
    kinds: { coat: 0.6, stain: 0.15, prime: 0.15 },
    acts: 'open the tin; open the can; stir it; mix up the; tip off; tip it off; cut in; shoot; lay on',
    things:
      'the colour; the color; streaky; patchy; brush strokes; stroke; covers; cover; covered; coverage; wet edge; drips; runs; see through it; colour goes on; color goes on',
  },
  {
    kinds: { stain: 0.7 },
    acts: 'wipe it back; wipe back; rub it off; flood it; wipe off what; bring out the grain; darken',
    things: 'surplus; darker; lap marks; the grain; grain pop; soak in; toner',
  },
  {
    kinds: { seal: 0.75, wax: 0.2, coat: 0.15 },
    acts: 'seal it all; lock it in; protect the; oil it; work it in; rub it in; give it oil; lay on the varnish; drink it; drinks it',
    things:
      'oil; conversion; two part; hard finish; water ring; water rings; protects; excess; what is left; too much; cloth in a ball; catch fire; make fire; it can burn; lay it out flat; flat outdoors; hang it outside',
  },
  {
    kinds: { hardware: 0.8 },
    acts: 'put the knobs; put the handles; put the locks; take off the handles; polish up; screw them back in; screw them back on; soak them',
    things:
      'locks; =cups; pull; hooks; ironwork; metalwork; brasses; fittings; drop handles; rail; threaded',
  },
  {
    kinds: { liner: 0.8 },
    acts: 'paper the; paper it; line it; glue it on the bottom; cut it to size; cut it over; smooth it down; paste the',
    things:
      'felt; velvet; drawer bottoms; back wall; peel; bubble; on the bottom; =paste; =pasted',
  },
  {
    kinds: { assemble: 0.7 },
    acts: 'screw it together; lift back on; bring the two together; bring together; drive home; hold the doors; get the hinges back on; put it together; back on; bolt together',
    things: 'screws home; back in place; back in the; back where',
  },
  // Wider: the words of restorers, polishers, sprayers and joiners, and of those who tell of them at home.
  {
    kinds: { clean: 0.8 },
    acts: 'spray and wipe; spray it down; wipe over; go over it with a damp; mop; swab; sponge down; sponge it; hose; hose down; hose it off; pressure wash; jet wash; scour; wash off the; get the dirt off; get the muck off; wash the dust off',
    things:
      'magic sponge; detergent; ammonia; reviver; furniture reviver; nicotine; cobwebs; muck; filth; grubby; cleaning solution; cleaning spray; surface cleaner; algae; mildew; mould spots; wet wipe; soapy; polish buildup; wax buildup; greasy; spray polish; silicone polish',
  },
  {
    kinds: { repair: 0.85 },
    acts: 'knock apart; knock it apart; take apart; take it apart; take it all apart; pull it apart; dismantle; disassemble; splice; splice in; make a new; cut a new; reinforce; brace; shim; caulk; re cane; re web; stick it back; stick this back; glue up; glue it back; glue back down; drill out; fill the holes; fill the old; square it up; straighten',
    things:
      'mallet; tenon; mortise; mortice; dovetail; spindle; rung; stretcher; cramp; two pack; caulk; gap filler; missing piece; snapped; rickety; wobble; rotten; rot; wood hardener; consolidant; wax stick; shellac stick; old holes; screw holes; plywood back; new back; brad nails; pocket holes; new rush; rush seat; =cane; =caned; =caning; webbing; palette knife; veneer patch; squirt of glue; bead of glue; grain filler; drawer runner; drawer slide; joints; sawdust',
  },
  {
    kinds: { strip: 0.75 },
    acts: 'lay it on thick; glob it on; glob; slather; burn off; push it off; wrap it in plastic; brush on the gel; scrape it all off; get down to the wood; get back to the wood; get to the bare wood; soften up',
    things:
      'lacquer thinner; acetone; sludge; putty knife; bubbling; bubbled; blistered; citrus gel; down to bare wood; down to the wood; down to raw wood; thick coat of stripper; wrapped in plastic; plastic over it',
  },
  {
    kinds: { sand: 0.9, scuff: 0.4 },
    acts: 'flatten; linish; go through the grits; work up through; smooth back; raise the grain; water pop; machine it back; sand it all',
    things:
      'disc sander; finishing sander; cork block; emery; scratch pattern; next grit; higher grit; finer grit; coarser grit; sanding marks; sanding dust; grade',
  },
  {
    kinds: { scuff: 0.9, sand: 0.5 },
    acts: 'degloss; de gloss; keying; flat back; flat it back; flatting; cut it back; ease it; knock it back; knock it down; knocked down; rub back; rub it back; sand in between; sand between; smooth between; take the roughness off; take off the roughness; dull the; take the nibs off',
    things:
      'wet and dry; red pad; maroon pad; white pad; paper bag; brown paper bag; little bumps; rough to the touch; feels smooth; tooth; =bite; between coats; in between coats; quick sand between',
  },
  {
    kinds: { prime: 0.9 },
    acts: 'seal in the knots; kill the stain; lock in the smell; lock in the stain; lock the smell; priming coat',
    things:
      'adhesion promoter; high build primer; surfacer; sealer coat; yellow spots; pink spots; knot sealer; seal coat of shellac; first the primer; tinted primer',
  },
  {
    kinds: { coat: 0.6, seal: 0.3, prime: 0.2 },
    acts: 'flow out; level out; self level; lay down; squirt; roll it out; rolled out',
    things:
      'sag; orange peel; roller texture; roller marks; opaque; rattle can; can of paint; tin of paint; fine tip; the gun; spray paint; thin coats; light coats; full coverage; solid coverage; see through',
  },
  {
    kinds: { stain: 0.8 },
    acts: 'rag on; rag off; let it soak; let it penetrate; wipe the stain; bring the colour back; bring the color back; deepen',
    things:
      'water stain for; spirit stain; stain colour; wiping rag; wood tone; =tone; =toned; even colour; even color',
  },
  {
    kinds: { seal: 1 },
    acts: 'french polish; body up; body it up; bodying; spirit off; spiriting off; lacquering; shoot some clear; spray the clear; clear it',
    things:
      'rubber; fad; button polish; spirit varnish; pre cat; pre catalysed; clear coats; topcoats; matt clear; matte clear; satin clear; semi gloss clear; clear over; coat of shellac; coat of sealer; milky',
  },
  {
    kinds: { seal: 0.45 },
    things:
      'durable; hard wearing; waterproof; water resistant; heat proof; foam applicator; wipe on; tough',
  },
  {
    kinds: { wax: 0.9 },
    acts: 'work the wax; shine it up; bring it up to a; polish it up; wax it; wax the',
    things: 'duster; soft sheen; shoe brush; lint free; wax on',
  },
  {
    kinds: { hardware: 0.85 },
    acts: 'drill new holes; drill the holes; measure and drill; drill for the; handles off; knobs off; hardware off; hardware on; hardware back; handles on; handles back; knobs on; knobs back; pulls off; pulls on; pulls back; take the pulls; take the knobs; take the handles; take these knobs; take these handles; take off the knobs; take off the pulls; get all these knobs; get the metal off; de rust',
    things:
      'metal off; screwdriver; drill; new holes; jig; =catches; studs; brass plate; plaque; rust; rusty; tarnish; tarnished; corroded; lemon juice; vinegar overnight; wire brush; new ones on; doors off; the grips',
  },
  {
    kinds: { liner: 0.85 },
    acts: 'smooth it out with; peel the back; peel the backing; lining each; trim the excess; cut to size',
    things:
      'squeegee; credit card; backing; shelf paper; spray adhesive; back panel; inside of the drawers; bottom of the drawers; bottom of each drawer; every drawer; each drawer',
  },
  {
    kinds: { detail: 0.9 },
    acts: 'mask up; mask it; tape off; tape up; tape it off; tape it up; tape round; paint by hand; freehand; rub through; rub it through; sand the edges; wear the edges; dab; dab on; blend',
    things:
      'paper and tape; tape round; masked; masking; overspray; stamp; ombre; two tone; worn look; along the edges; gilding; gold paste; artist brush; fine brush; hand painted; flowers',
  },
  {
    kinds: { assemble: 0.9, hardware: 0.3 },
    acts: 'hang the door; rehang; put the doors; doors go back; drawers go back; drawer goes back; doors back; drawers back; door back; drawers in; slide the drawers; wind the adjusters; adjust the hinges; refit the top; put her back together; put him back together; put them back together; put all back; bolt the; screw the legs; fix the top',
    things: 'soft close; soft close hinges; felt pads; felt feet',
  },
  {
    kinds: { assemble: 0.6, hardware: 0.6 },
    acts: 'go back on; goes back on; going back on; went back on; go back in; goes back in; went back in; go back where; went back where; gone back where; put those back; put these back',
  },
  {
    kinds: { clean: 0.7 },
    acts: 'get rid of all the; give it a bath; go over it with a cloth; bleach; clean it with; brush off the dirt',
    things:
      'gross; sticky; nasty; oxalic; oxalic acid; wood bleach; cleaned; swabs; dish soap and; clean rag came away; rubbing alcohol; baking soda; dirt came off',
  },
  {
    kinds: { repair: 0.65 },
    acts: 'make good; ease apart; put together again; tighten; tighten up; nail; firm up; stabilise; stabilize; replace; replace the; rebuild the; knead; file it to; shape it; add a piece; reattach the veneer',
    things:
      '=losses; shaky; hairline; popsicle stick; corner block; bracket; replacement; scrap of wood; scrap wood; piece of scrap; wax paper; bungee; chunk',
  },
  {
    kinds: { strip: 0.65 },
    acts: 'take the varnish off; get the paint off; get the varnish off; lift the finish; dissolve',
    things:
      'paint off; varnish off; lacquer off; in sheets; cling film; hot air gun; wrinkly; bubbly; remover; coming off',
  },
  {
    kinds: { sand: 0.7, scuff: 0.35 },
    acts: 'go over it with the sander; =planed; =planing; rasp; get it smooth; sand through',
    things:
      'fuzzy; feels like glass; buttery smooth; quick going over; once over',
  },
  {
    kinds: { prime: 0.6 },
    things:
      'paint sticks; paint stick; paint will stick; paint to stick; sticks to; something to stick to; gray stuff; grey stuff; base layer',
  },
  {
    kinds: { coat: 0.8 },
    acts: 'get some paint on; get some colour on; get some color on; put some colour on; put some color on; painted',
    things: 'colour on; color on; some colour; some color',
  },
  {
    kinds: { stain: 0.8 },
    acts: 'even out the colour; even out the color; match the colour; match the color',
    things: 'toner; dye in',
  },
  {
    kinds: { seal: 0.8 },
    acts: 'feed the wood; nourish; rehydrate; oil the wood; wipe on the finish; spray the lacquer',
    things:
      'hemp oil; walnut oil; mineral oil; thirsty; something to drink; protective layer; coat of finish; hardener',
  },
  {
    kinds: { wax: 0.8 },
    things: 'microcrystalline; carnauba; little circles',
  },
  {
    kinds: { hardware: 0.7 },
    acts: 'soak; soak in vinegar; spray the hardware; rub the brass; number the hinges',
    things:
      'backplates; fittings; mounts; zip bag; set aside; key hole; keyhole',
  },
  {
    kinds: { liner: 0.5, assemble: 0.3, repair: 0.2 },
    acts: 'upholster; reupholster; staple; staple it; sew',
    things:
      'staple gun; staples; foam; batting; cushion; seat cover; seat pad; leather',
  },
  {
    kinds: { detail: 0.8 },
    acts: 'rub back to; sand back to show; show through; =lettering',
    things:
      'chippy; crackle; fake grain; faux; border; rub there; worn out abrasive',
  },
  {
    kinds: { assemble: 0.7 },
    acts: 'stand it up; put the lid; lid back on; lids on; lid on; screw the seats; seats back on; seat back on; spin back in; legs back; run freely; shelves back in; shelf back in; back in their places',
    things: 'together again; all back together; drives the screws',
  },
  {
    kinds: {},
    things:
      'water stain; water stains; stain remover; tea stain; ink stain; stained glass; coffee stain; wine stain; clean cloth; clean rag; clean brush; clean water; clean lines; clean look; clean finish; clean slate; clean edge; clean line; strip of; strips of; led strip; chest of drawers; paper towel; kitchen roll; kitchen paper; piece of paper; paint me; paint the picture; paint a picture; coat hook; coat rack; coat hanger; fur coat; key to; the key thing; key is; wood burning; fit in; fit for; fits in; line up; dead line; finish line; in line; fill you in; fill the cart; fix up; grease pencil; get rid of; fixer; flat pack; handle it; handle this; can handle; hand held; protect my; protect your; protect the floor; clear the; clear out; clear that; clear to; crystal clear; to be clear; make it clear; pretty clear; drop cloth; dust sheet; dust mask; smooth sailing; color scheme; in my lungs; dust extraction; paint pen; paint chip; paint shop; paint store; paint aisle; hole in the; wash of; brush out; dry brush off; level of; next level; whole new level; patch of; a level; gap in; polish it off; hang on; hang around; hang out; hanging out; hang in there; tone down; tough one; tough to; drill down; the drill; tape measure; rot in; catch up; catch you; catch ya; catch the light; smell of; flatten the curve; a blend; body of; rubber gloves; rubber mallet; rubber band; see through it all; level with you; fix in post; clean up nice; glue is; grade school; stamp of; take a break; dust mask on; mop up',
  },
]

/** All phrases, by the first of their stems, the longest first. */
export const tradePhrases: ReadonlyMap<string, readonly TradePhrase[]> =
  byFirstWord(
    vocabulary.flatMap(({ kinds, acts = '', things = '' }) => [
      ...phrasesOf(acts, kinds, true),
      ...phrasesOf(things, kinds, false),
    ]),
  )

function phrasesOf(
  list: string,
  kinds: KindWeights,
  act: boolean,
): readonly TradePhrase[] {
  return list
    .split(';')
    .map((phrase) => phrase.trim())
    .filter((phrase) => phrase !== '')
    .map((phrase) => ({
      words: phrase
        .split(' ')
        .map((word) => (word.startsWith('=') ? word : stem(word))),
      kinds,
      act,
    }))
}

function byFirstWord(
  phrases: readonly TradePhrase[],
): ReadonlyMap<string, readonly TradePhrase[]> {
  const all = new Map<string, TradePhrase[]>()
  for (const phrase of phrases) {
    const [word = ''] = phrase.words
    const first = word.startsWith('=') ? stem(word.slice(1)) : word
    all.set(first, [...(all.get(first) ?? []), phrase])
  }
  for (const list of all.values()) {
    list.sort((one, other) => other.words.length - one.words.length)
  }
  return all
}
