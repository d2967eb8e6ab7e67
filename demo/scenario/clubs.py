"""The clubs, their waters and the teams that come back all season. Every name is invented."""

from dataclasses import dataclass

CRAPPIE_CLUB = "Dunnock Valley Crappie Club"
WALLEYE_CLUB = "Tarn Lake Walleye League"
BASS_CLUB = "Withy Pool Bass Anglers"

OSPERRY, QUILL, MERROW = "Lake Osperry", "Quill Reservoir", "Merrow Lake"
TARN, WITHY = "Tarn Lake", "Withy Pool"

SCALES = ("Odile Varnham", "Teo Brackwater")


@dataclass(frozen=True)
class Team:
    name: str
    anglers: tuple[str, ...]
    skill: float = 0.0
    youth: bool = False


def _teams(lines: str) -> tuple[Team, ...]:
    """One team a line: name | anglers | what its fish weigh above or below the day's mean, in pounds."""
    teams = []
    for line in lines.strip().splitlines():
        name, anglers, skill = (part.strip() for part in line.split("|"))
        people = tuple(person.strip() for person in anglers.split(","))
        teams.append(Team(name.removesuffix(" (youth)"), people, float(skill), name.endswith(" (youth)")))
    return tuple(teams)


CRAPPIE_TEAMS = _teams("""
Slow Drift            | Mireille Oakhanger, Desta Quillfeather   | 0.20
Cork and Cane         | Tobiah Ashgrove, Renske Ashgrove         | 0.17
Minnow Debt           | Ikenna Farrowby, Paz Thistlewood         | 0.16
Second Brush Pile     | Yusra Haldenby, Corvin Maplethorpe       | 0.14
Paper Mouths          | Anneliese Okparaku, Bram Stillwell       | 0.12
Cold Coffee           | Hideo Larkmoor, Jessamy Larkmoor         | 0.11
Six Pole Problem      | Oluchi Brandreth, Sven Harrowgate        | 0.10
Left of the Dam       | Marisol Penhallick, Dewi Crossfield      | 0.09
Stump Field           | Kwabena Rushworth, Lotte Emberley        | 0.08
The Net Is Yours      | Farida Wolstencroft, Gus Wolstencroft    | 0.07
Creek Mouth           | Nizhoni Tarrant, Pell Draycott           | 0.06
Knot Again            | Ottilie Sandhu-Marsh, Rafe Copperwaite   | 0.05
Half a Bucket         | Lindiwe Hathersage, Amos Birdsall        | 0.04
Two Rods Down         | Siobhan Everglade, Tadeo Winterbourne    | 0.03
Quiet Motor           | Bao Fenimore-Le, Hester Ridgewell        | 0.03
Nine Foot of Water    | Caspian Duxbury, Amara Duxbury           | 0.02
Mud Line              | Ewa Kestrelby, Jonas Applegarth          | 0.01
Old Rope              | Philippa Nwachuku-Dale, Orrin Sedgefield | 0.00
Ledge Nine            | Itzel Bramhall, Fergus Loxley-Wren       | 0.00
Weather Permitting    | Zainab Holloway-Pike, Curtis Meadowcroft | -0.01
Borrowed Boat         | Leilani Stockdale, Emeka Underhay        | -0.02
Late Start            | Dagny Prestwood, Milo Garsdale           | -0.03
Tangled Early         | Rosalind Achterberg, Jun Whitlock        | -0.04
Bobber Down           | Noor Tamworth, Silas Greaves-Otto        | -0.05
Sunday Shift          | Xiomara Pellew, Wendell Thorncliffe      | -0.06
Pier Pressure         | Abeni Coldbeck, Ludo Marchbank           | -0.07
Dip Net Cousins       | Saoirse Hallowell, Kofi Hallowell        | -0.08
Bank Job              | Tamsin Oyelaran-Fisk, Pieter Downham     | -0.10
First Frost           | Minh Castleberry, Edda Castleberry       | -0.12
Young Drakes (youth)  | Ruben Alderwick, Sefa Alderwick, Joss Alderwick | -0.05
Cattail Kids (youth)  | Priya Longmire, Asher Longmire, Wren Longmire | -0.09
Shiners (youth)       | Hana Brockwell, Tycho Brockwell          | -0.13
""")

WALLEYE_TEAMS = _teams("""
North Reef         | Astrid Kinvara, Bolaji Rowntree       | 0.25
Amber Eye          | Cyrille Hasleby, Maud Oxenhope        | 0.20
Wind Side          | Dov Thackeray-Lund, Imani Fallowfield | 0.10
Slip Bobber        | Greta Umberleigh, Hal Umberleigh      | 0.05
Gravel Bar         | Jarek Nettleship, Sunniva Pole        | 0.00
Bottom Bouncers    | Kalinda Wray, Lorcan Eastmere         | -0.05
Evening Bite       | Nkechi Saltmarsh, Olof Burnside       | -0.10
Long Line          | Perpetua Yewdale, Quang Ellerby       | -0.15
Rock Pile          | Rhiannon Scarth, Tomasz Villiers-Ng   | -0.20
Fog Bell           | Ulla Birkenshaw, Viggo Ainsdale       | -0.25
""")

BASS_TEAMS = _teams("""
Lily Pad Society   | Wilhelmina Orde, Xavi Brackenridge    | 0.40
Dock Light         | Yara Tillotson, Zeb Northwood         | 0.30
Back of the Cove   | Ailbhe Mortlake, Chidi Summerscale    | 0.20
Shade Line         | Divya Harker-Bloom, Eskil Popplewell  | 0.10
Riprap             | Femi Garthwaite, Gwenllian Ashdown    | 0.00
Windblown Point    | Hideko Sallowfield, Iolo Crake        | -0.10
Heavy Cover        | Juno Beresford-Adu, Karl Wetherell    | -0.15
Clear Water        | Liesl Mockridge, Mateus Hoyland       | -0.20
Last Cast          | Nanami Thursby, Osric Felgate         | -0.30
Flat Calm          | Paloma Risdale, Quill Hardcastle-Roy  | -0.35
Open Hatch         | Rohan Blenkin, Sigrid Marlpit         | -0.40
Far Bank           | Tindra Wolds, Ubong Cleverley         | -0.50
""")
