using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about larvae and juveniles.</summary>
internal static class LarvaVerbs
{
    internal const string Methods = "glance, beam, full, aliquot or photo.";

    public static IEnumerable<EntryVerb> All() =>
        [
            Hatching(),
            Collection(),
            Crossing(),
            Count(),
            Dead(),
            Stages(),
            MeasuredVerb.Make(),
            Moved(),
            Merged(),
            Split(),
        ];

    private static EntryVerb Hatching()
    {
        var brood = Slot.Word("BROOD", "The brood they hatched from.");
        var vessel = Slot.Option("--in", "Where.", "VESSEL");
        var over = Slot.Flag("--over", "Hatching is over.");
        return new(
            "hatching",
            "Larvae were seen in the water.",
            ["write hatching \"Brood 3\" --in \"Hatching box\""],
            [brood, vessel, over],
            told =>
                [new HatchingSeen(told.Said.TheBrood(brood), told.Said.Vessel(vessel), told.Said.Flag(over))]
        );
    }

    private static EntryVerb Collection()
    {
        var brood = Slot.Word("BROOD", "The brood they hatched from.");
        var from = Slot.Option("--from", "The hatching box.", "VESSEL");
        var into = Slot.Option("--into", "The cup.", "VESSEL");
        var number = Slot.Option("--number", "How many.", "COUNT");
        var method = Slot.Option("--method", Methods, "WORD");
        return new(
            "collection",
            "Larvae were gathered from the hatching box.",
            ["write collection \"Brood 3\" --from \"Hatching box\" --number 120 --method glance"],
            [brood, from, into, number, method],
            told =>
                [
                    new CollectionMade(
                        told.Same((CollectionMade before) => before.Collection),
                        told.Said.TheBrood(brood),
                        told.Said.Vessel(from),
                        told.Said.Vessel(into),
                        told.Said.Count(number),
                        told.Said.Member<CountMethod>(method)
                    ),
                ]
        );
    }

    private static EntryVerb Crossing()
    {
        var brood = Slot.Word("BROOD", "The brood they hatched from.");
        var to = Slot.Word("VESSEL", "The larval vessel.");
        var number = Slot.Option("--number", "How many larvae.", "COUNT");
        var method = Slot.Option("--method", Methods, "WORD");
        var source = Slot.Option("--source", "The vessel whose sea water was poured.", "VESSEL");
        var poured = Slot.Option("--poured-salinity", "Salinity of the water poured.", "SALINITY");
        var entered = Slot.Option("--entered", "Volume of the cup that went in.", "VOLUME");
        var enteredSalinity = Slot.Option("--entered-salinity", "Salinity of what went in.", "SALINITY");
        var minutes = Slot.Option("--brackish", "Time in brackish water, such as 4min.", "TIME");
        return new(
            "crossing",
            "Larvae were taken from fresh to salt water.",
            [
                "write crossing \"Brood 3\" \"Jar A\" --number 120 --entered 150mL --entered-salinity 26 --brackish 4min",
            ],
            [brood, to, number, method, source, poured, entered, enteredSalinity, minutes],
            told =>
                [
                    new CrossingMade(
                        told.Same((CrossingMade before) => before.Cohort),
                        told.Said.TheBrood(brood),
                        told.Said.TheVessel(to),
                        told.Before<CrossingMade>()?.Collections,
                        told.Said.Count(number),
                        told.Said.Member<CountMethod>(method),
                        told.Said.Vessel(source),
                        told.Said.Salinity(poured),
                        told.Said.Volume(entered),
                        told.Said.Salinity(enteredSalinity),
                        told.Said.Amount(minutes, Dimension.Duration, "min"),
                        told.Before<CrossingMade>()?.Pours
                    ),
                ]
        );
    }

    private static EntryVerb Count()
    {
        var vessel = Slot.Word("VESSEL", "Where.");
        var seen = Slot.ManyWords("SEEN", "Larvae seen; of samples, the number in each.");
        var method = Slot.Option(
            "--method",
            Methods + " Else full, or aliquot where a volume is given.",
            "WORD"
        );
        var volume = Slot.Option("--sample", "Volume of each sample.", "VOLUME");
        var cohort = Slot.Option(
            "--cohort",
            "The cohort, if only one was counted, such as \"Brood 2#1\".",
            "COHORT"
        );
        var dark = Slot.Option("--dark", "Whether the room was dark: yes or no.", "YES|NO");
        var again = Slot.Flag("--again", "The same water a second time, as a check.");
        return new(
            "count",
            "Larvae were counted or guessed.",
            [
                "write count \"Jar A\" 3 5 4 --sample 250mL",
                "write count \"Jar A\" 60 --method beam --dark yes",
            ],
            [vessel, seen, method, volume, cohort, dark, again],
            told =>
            {
                var each = told.Said.Volume(volume);
                return
                [
                    new CountMade(
                        told.Said.TheVessel(vessel),
                        told.Said.Member<CountMethod>(method)
                            ?? (each is null ? CountMethod.Full : CountMethod.Aliquot),
                        [
                            .. told
                                .Said.Texts(seen)
                                .Select(s => new Aliquot(told.Said.CountOf(s, seen.Name), each)),
                        ],
                        told.Said.Cohort(cohort),
                        told.Said.YesNo(dark),
                        told.Said.Flag(again),
                        told.Before<CountMade>()?.Pictures
                    ),
                ];
            }
        );
    }

    private static EntryVerb Dead()
    {
        var vessel = Slot.Word("VESSEL", "Where.");
        var number = Slot.Word("NUMBER", "How many.");
        return new(
            "dead",
            "Dead larvae were taken out: a lower bound on deaths, not a count of them.",
            ["write dead \"Jar A\" 2"],
            [vessel, number],
            told => [new DeadRemoved(told.Said.TheVessel(vessel), told.Said.TheCount(number))]
        );
    }

    private static EntryVerb Stages()
    {
        var vessel = Slot.Word("VESSEL", "Where they came from.");
        var tallies = Slot.ManyWords("STAGE=NUMBER", "How many in each stage, such as Z5=3.");
        var cohort = Slot.Option("--cohort", "The cohort, if known, such as \"Brood 2#1\".", "COHORT");
        return new(
            "stages",
            "Larvae were staged under the microscope.",
            ["write stages \"Jar A\" Z6=4 Z7=5"],
            [vessel, tallies, cohort],
            told =>
                [
                    new StageSampleTaken(
                        told.Said.TheVessel(vessel),
                        [.. told.Said.Texts(tallies).Select(text => Tally(told.Said, text))],
                        told.Said.Cohort(cohort)
                    ),
                ]
        );
    }

    private static StageTally Tally(Said said, string text)
    {
        var parts = text.Split('=', 2, StringSplitOptions.TrimEntries);
        if (parts.Length == 2 && parts[0].Length > 0)
        {
            return new StageTally(parts[0].ToUpperInvariant(), said.CountOf(parts[1], "stages"));
        }

        said.Add(new Remark("stage-tally-not-read", new Argument("typed", text)));
        return new StageTally("", 0);
    }

    private static EntryVerb Moved()
    {
        var from = Slot.Word("FROM", "Out of this vessel.");
        var to = Slot.Word("TO", "Into this vessel.");
        var number = Slot.Option("--number", "How many, if not all.", "COUNT");
        return new(
            "larvae-moved",
            "Larvae were moved from one vessel to another; each cohort keeps its identity.",
            ["write larvae-moved \"Jar A\" \"Sea can\" --number 20"],
            [from, to, number],
            told =>
                [
                    new CohortsMoved(
                        told.Said.TheVessel(from),
                        told.Said.TheVessel(to),
                        told.Before<CohortsMoved>()?.Cohorts,
                        told.Said.Count(number)
                    ),
                ]
        );
    }

    private static EntryVerb Merged()
    {
        var vessel = Slot.Word("VESSEL", "Where they live.");
        var into = Slot.Word("INTO", "The cohort whose name they bear from then on, such as \"Brood 2#1\".");
        var others = Slot.ManyWords("COHORT", "The cohorts that are joined to it.");
        return new(
            "merged",
            "Cohorts of one vessel are told as one from then on.",
            ["write merged \"Jar A\" \"Brood 2#1\" \"Brood 2#2\""],
            [vessel, into, others],
            told =>
            {
                var main = told.Said.TheCohort(into);
                var joined = told
                    .Said.Texts(others)
                    .Select(told.Said.Naming.Cohort)
                    .Where(found => told.Said.Take(found))
                    .Select(found => found.Value);
                return [new CohortsMerged(told.Said.TheVessel(vessel), [main, .. joined], main)];
            }
        );
    }

    private static EntryVerb Split()
    {
        var cohort = Slot.Word("COHORT", "The cohort, such as \"Brood 2#1\"; both parts keep its identity.");
        var from = Slot.Word("FROM", "Where it was.");
        var to = Slot.Word("TO", "Where the part went.");
        var number = Slot.Option("--number", "How many went.", "COUNT");
        return new(
            "split",
            "A part of a cohort went into another vessel.",
            ["write split \"Brood 2#1\" \"Jar A\" \"Sea can\" --number 20"],
            [cohort, from, to, number],
            told =>
                [
                    new CohortSplit(
                        told.Said.TheCohort(cohort),
                        told.Said.TheVessel(from),
                        told.Said.TheVessel(to),
                        told.Said.Count(number)
                    ),
                ]
        );
    }
}
