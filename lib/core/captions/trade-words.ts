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
    kinds: { clean: 0.5, sand: 0.2, scuff: 0.2 },
    acts: 'vacuum; hoover; hoover up',
  },
  {
    kinds: { clean: 0.25, sand: 0.25, scuff: 0.25 },
    acts: 'dust off; wipe off the dust; wipe away the dust; clean up; tack off',
    things: 'tack cloth; tack rag; dust; sawdust',
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
      'stripper; paint stripper; paint remover; varnish remover; finish remover; stripping gel; stripping agent; scraper; plastic scraper; heat gun; citrus stripper; gel stripper; goop; gunk; paint and varnish remover; chemical stripper; carbide scraper',
  },
  {
    kinds: { strip: 0.4 },
    things:
      '=layers of paint; old finish; old varnish; old paint; steel wool; wire wool; bare wood; mineral spirits; white spirit; residue; cling film; plastic wrap',
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
    acts: 'knock apart; knock it apart; take apart; pull it apart; splice; splice in; make a new; cut a new; reinforce; brace; shim; caulk; re cane; re web; stick it back; stick this back; glue up; glue it back; glue back down; drill out; fill the holes; fill the old; square it up; straighten',
    things:
      'mallet; tenon; mortise; mortice; dovetail; spindle; rung; stretcher; cramp; two pack; caulk; gap filler; missing piece; snapped; rickety; wobble; rotten; rot; wood hardener; consolidant; wax stick; shellac stick; old holes; screw holes; plywood back; new back; brad nails; pocket holes; new rush; rush seat; =cane; =caned; =caning; webbing; palette knife; veneer patch; squirt of glue; bead of glue; grain filler; drawer runner; drawer slide; joints',
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
  // On camera: how people speak to a lens while their hands are busy.
  {
    kinds: { clean: 0.8 },
    acts: 'give it a good clean; give it a scrub; give it a once over with a damp; get all the dirt; get all the dust; get it cleaned up; get this cleaned up; get her cleaned up; wipe it all down; wipe everything; wipe her down; wipe this down; wipe these down; clean it up; clean this up; clean her up; scrub it; scrub everything; scrub this; wash this; wash these; wash her; spray it with; hit it with the degreaser; hit it with some cleaner; air it out; air out; let it air',
    things:
      'crud; crusty; grungy; disgusting; funk; funky; spider webs; cat hair; dog hair; pet hair; smoke smell; cigarette smoke; rag came away; rag is black; cloth is black; look at that rag; look at the rag; look at that cloth; look at that water; colour of that water; color of that water; dirty water; bucket of water; scrub brush; scourer; rubber glove; elbow grease; wax and grime; hand grease; vacuum cleaner; shop vac; shop vacuum; droppings; rinse water',
  },
  {
    kinds: { repair: 0.8 },
    acts: 'dig out; dig all; cut out the; cut some new; cut new; make new; fill those; fill these; fill that; fill this; fill all; plug the; build it back up; build that back up; build it up; shape it back; put a screw; pull it tight; pull that tight; get some glue; get glue; work the glue; press it in; press that in; pack it in; pack them; push it in; pop it back; sister; stitch',
    things:
      'past it; beyond saving; spongy; chewed; bashed; dinged up; banged up; busted; cracked; missing chunk; missing trim; two part; golf ball; dead flat; sets up hard; rock hard; hard as a rock; clamps off; clamps on; clamps overnight; tube of; syringe; toothpick; toothpicks; open grain; wiggle; wiggly; racked; out of square; drop of glue; dab of glue; strap clamp; ratchet strap; weight on it; weights on it; patching; filler in',
  },
  {
    kinds: { strip: 0.75 },
    acts: 'glop; glop on; goop on; lather on; smear it on; pile it on; let it sit and do; let it cook; slide off; slides off; lift the paint; get this paint off; get this finish off; get all this paint; get all the paint; get all that paint; get the rest of it off; peel right off; come right off; comes right off; come straight off; comes straight off',
    things:
      'goo; gloop; jelly; like jelly; bin liner over; crinkly; crinkled; shrivelled; shriveled; layer after layer; how many layers; layers on here; layers of old; old layers; down to nothing; nothing but wood; heatgun; pull scraper; wood grain underneath',
  },
  {
    kinds: { sand: 0.75, scuff: 0.4 },
    acts: 'hit it with the sander; hit it with a sander; run the sander; break out the sander; get the sander; take it down to; take this down to; take that down to; bring it down to; down to bare; down to raw; make some dust; work my way up; work up to; smooth it all; smooth everything; get it nice and smooth',
    things:
      'bare oak; bare pine; bare walnut; clouds of dust; so much dust; dust everywhere; power sander; little sander; corner sander; nice and smooth; silky; smooth as; baby smooth; soft as; through the finish; nice and even',
  },
  {
    kinds: { scuff: 0.85, sand: 0.5 },
    acts: 'rough it up; rough this up; rough them up; rough everything up; roughing up; give it a quick; give it a rub; give it some tooth; give it a light; break the surface; break the gloss; knock the gloss; take the gloss off; take off the gloss; cut the gloss; dull it down; dull everything; dull it all; scratch it up; scratch up; hit it with a pad; run a pad; buzz over',
    things:
      'gloss off; shine off; sheen off; something to grab; something to hold; something to bite; something to hang; grab onto; grab on to; hold onto; hang onto; bite into; slick; too slick; slippery; not down to; not going down to; not taking it down; mechanical bond; bits of dust; dust bits; gritty; smooth between',
  },
  {
    kinds: { prime: 0.75 },
    acts: 'lock it down; lock that down; lock it all down; lock that in; block that; block all; block out; stop that coming; stop it bleeding; keep it from bleeding; keep that from',
    things:
      'bleed right through; bleeding out; coming right through; come right through; come through the paint; come up through; turned pink; turns pink; turned yellow; turns yellow; yellowing; pink streaks; brown streaks; ugly white; ugly grey; looks chalky; splotchy white; sticks to anything; stick to anything; stick to everything; stuff sticks',
  },
  {
    kinds: { coat: 0.75, prime: 0.15, seal: 0.15 },
    acts: 'throw on; throw a coat; throw some; slap on; slap it on; slap some; slop; lay down a; lay it down; lay a coat; knock out; crack open; crack this open; crack it open; pop open; pop the lid; get a coat; get one coat; get a first; get the first; get some paint; get the paint; put the paint; put the first; put a first; get this painted; get it painted; start painting; start the painting; start with the colour; start with the color; go in with; go in with the; brush in; roll it; roll the; bring out the colour',
    things:
      'the fun part; fun bit; good part; favourite part; favorite part; ugly stage; ugly duckling; looks terrible; looks awful; looks dreadful; looks horrible; hate it right now; see right through; streaks; swatch; hue; paint day; painting day; lid off; tin open; can open; levels itself; levelling out; leveling out; self leveling; self levelling; paint tray; roller tray; cutting in; flat brush; angled brush; sash brush; brushing it; foam brush',
  },
  {
    kinds: { stain: 0.75 },
    acts: 'give it some colour; give it some color; warm it up; warm up the; make it darker; go darker; rub it on; wipe it on; wipe this on; wipe it off; take it back off; keep a wet',
    things:
      'old sock; a sock; lint free rag; deep brown; rich brown; dark brown; warm brown; reddish; orangey; too orange; too red; pops the grain; pop the grain; grain pops; brings out; brought out; look at that grain; takes the colour; takes the color; blotchy; blotches',
  },
  {
    kinds: { seal: 0.8, wax: 0.15, coat: 0.1 },
    acts: 'lock it all in; lock everything in; protect all; protect this; protect that; protect your; finish it off with; finish it with; top it off; top it with; put something over; put something on top; save it from; keep it safe; make it last; make it durable; wipe on a',
    things:
      'something on top; something over the top; on top of that; over the top of it; over the paint; cloudy at first; milky at first; looks milky; goes on milky; like milk; dries clear; turns clear; transparent; water marks; no coaster; wet glass; spills; wipeable; bulletproof; hard as nails; flat out to dry; lay your rags; rag outside; rags outside; rags flat; catch fire on their own; self combust; combust; spontaneous; soaks it up; soak it up; drinking it up; drinks it up; drank it; quarter sized',
  },
  {
    kinds: { wax: 0.75 },
    acts: 'rub in the wax; buff it all; buff this; buff the; burnish; bring up the shine; bring up a shine; bring a shine',
    things: 'tin of wax; pea sized; soft lustre; soft luster; silky feel',
  },
  {
    kinds: { hardware: 0.8 },
    acts: 'get the handles off; get the knobs off; get the pulls off; get these handles off; get these off; get all the pulls; get all the handles; get all the hardware; get all this hardware; take all the hardware; take all the handles; take all the knobs; take all the pulls; take all of this; take these off; take everything off; hardware comes off; handles come off; knobs come off; pulls come off; hinges come off; come off first; comes off first; bag them up; bag and label; label them; label everything; shine up the',
    things:
      'sandwich bag; jam jar; lose the screws; all the screws; original pulls; original handles; original knobs; original hardware; new handles; jewelry; jewellery; the bling; bling; lid off first; hinges off; each hinge; screw stuck; stripped screw; rusted in; rusted screw; toothpaste',
  },
  {
    kinds: { liner: 0.75 },
    acts: 'line these; line them; cover the bottom; cover the bottoms; cover the drawer; stick it down; stick it in; trim it; trim it down; trim round; trim around; cut a piece; cut this to',
    things:
      'roll of paper; roll of wallpaper; left over wallpaper; leftover wallpaper; leftover paper; little surprise; surprise inside; surprise when you open; double sided; bottoms of the; insides of the; removable; sticky back',
  },
  {
    kinds: { detail: 0.75 },
    acts: 'rub it back on; rub some off; wear it back; wear through; sand it back on; distress the; hit the edges; knock the edges; take it off the edges; paint the stripe; paint the edge; draw it on; sketch; tape out; tape a; peel the tape; pull the tape; pick out the',
    things:
      'showing through; shows through; peek through; peeks through; peeking through; old look; scary part; chipped look; the edges where; where hands; where your hand; naturally wear; natural wear; stencilling; stenciling; hand lettered; fluted; dip the legs; dipped; dipped legs; checkerboard',
  },
  {
    kinds: { assemble: 0.8, hardware: 0.35 },
    acts: 'get it back together; get this back together; get it all back; put it all together; put this back; put this all back; put her together; go back together; goes back together; doors on; door on; drawers on; shelves in; legs on; legs back; feet on; feet back; screw the feet; screw the base; put the feet; put the legs; hang the door; hang them; hung up; line the hinges up; hinge it; slot in; slots in; slide in; slides in; everything goes back; everything back in; everything back on; stand her up; flip it back',
    things:
      'new feet; new legs; last few screws; last screw; close properly; closes properly; shut properly; moment of truth; back in one piece; one piece again',
  },
  // Said of the one as of the other: a little for each.
  {
    kinds: { condition: 0.6, prime: 0.4 },
    acts: 'put this on first; put it on first; go on first; goes on first; has to go on first; have to put this',
    things: 'what goes on first; takes evenly; take evenly; evenly; blotching',
  },
  {
    kinds: { condition: 0.6, stain: 0.2 },
    things: 'blotchy; blotches; before the stain; even out the stain',
  },
  {
    kinds: { clean: 0.55 },
    things:
      'spray bottle; comes off brown; came off brown; came off black; coming off yellow; sticky residue; let it sit a minute; let it sit there',
  },
  {
    kinds: { assemble: 0.5, repair: 0.5, hardware: 0.2 },
    acts: 'dismantle; disassemble; take it apart; take them apart; take it all apart',
  },
  {
    kinds: { assemble: 0.5, hardware: 0.4 },
    acts: 'get all the drawers; get the drawers out; take the drawers out; take all the drawers; pull the drawers; take the doors off; take the top off; take the legs off; take off the doors; take off the top; take off the legs; get the doors off; get the top off',
    things: 'drawers out; doors off; top off; legs off',
  },
  {
    kinds: { hardware: 0.4, assemble: 0.2 },
    things:
      'couple of screws; couple screws; few screws; two screws; four screws; spinning; backed out; comes right out; come right out',
  },
  {
    kinds: { repair: 0.5 },
    acts: 'jam it in; jam it; smoosh; smush; squish; cram; shove it in; knead it',
    things: 'equal parts; part a; part b; this corner',
  },
  {
    kinds: { liner: 0.4, repair: 0.3 },
    things: 'rush; new seat; new seats',
  },
  {
    kinds: { sand: 0.4, scuff: 0.35, clean: 0.2 },
    acts: 'go over it with; go over everything; go over this; go over the; switch to; move up to; step up to; go up to',
  },
  {
    kinds: { coat: 0.4, seal: 0.25, prime: 0.25, stain: 0.15 },
    acts: 'get another; get the second; get its second; get its first; put another; put the second',
    things:
      'the navy; the black; the white; the green; the blue; the cream; the red; the pink; the teal; the grey; the gray; the yellow; the shade',
  },
  {
    kinds: { hardware: 1 },
    acts: 'remove hardware; remove all hardware; remove all the hardware; remove the knobs; remove knobs; remove the old knobs; remove the old hardware; remove the old handles; remove the handles; remove handles; remove all handles; remove all the handles; remove all the knobs; remove the pulls; remove the old pulls; remove all fittings; remove the fittings; remove the hinges; take off all the hardware; take all the old hardware',
  },
  {
    kinds: { assemble: 0.8, repair: 0.15, hardware: 0.15 },
    acts: 'remove the seat; remove seats; remove the drawers; remove all the drawers; remove drawers; remove the doors; remove doors; remove the legs; remove the top; remove the back; take the seat off; take the seats off; take off the seats; put the seat back; put the seats back; unscrew the seats; place the seat; reattach the seats; attach the seats; replace the drawers',
  },
  {
    kinds: { clean: 0.5, sand: 0.15, scuff: 0.2 },
    acts: 'remove the dust; remove any dust; remove all the dust; remove all dust; wipe the dust; wipe off any dust; wipe off all the dust; wipe away any dust; dust it off; dust the; dry dust; clean off the dust',
  },
  {
    kinds: { strip: 0.5 },
    things:
      'flaky paint; flaking; flaking paint; loose paint; peeling paint; chipping paint',
  },
  {
    kinds: { scuff: 0.6, sand: 0.3 },
    acts: 'rub out; rub the finish out; rub out the finish; hand rub; rub it out',
  },
  {
    kinds: { clean: 0.35 },
    things: 'stink; stinks; spiders; smelly; mouldy; moldy',
  },
  {
    kinds: { seal: 0.4, wax: 0.15 },
    things: 'mugs; coasters; dry wood; scratches and',
  },
  {
    kinds: { repair: 0.4 },
    acts: 'leave it proud; sit proud; stand proud',
    things: 'a little proud; bit proud; flush with; pores',
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
