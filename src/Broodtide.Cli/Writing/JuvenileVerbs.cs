using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about settlement and juveniles.</summary>
internal static class JuvenileVerbs
{
    public static IEnumerable<EntryVerb> All() => [Settled(), Home(), Juveniles(), GivenAway(), Heard()];

    private static EntryVerb Settled()
    {
        var vessel = Slot.Word("VESSEL", "Where.");
        var number = Slot.Option("--number", "How many were seen; few seen is not few settled.", "COUNT");
        return new(
            "settled",
            "Bottom-living post-larvae were seen.",
            ["write settled \"Jar A\" --number 3"],
            [vessel, number],
            told => [new SettlementSeen(told.Said.TheVessel(vessel), told.Said.Count(number))]
        );
    }

    private static EntryVerb Home()
    {
        var from = Slot.Word("FROM", "The larval vessel.");
        var to = Slot.Word("TO", "The nursery.");
        var number = Slot.Option("--number", "How many.", "COUNT");
        var minutes = Slot.Option("--took", "How long the way took, such as 40min.", "TIME");
        return new(
            "juveniles-returned",
            "Juveniles went back to fresh water.",
            ["write juveniles-returned \"Jar A\" \"River tank\" --number 4 --took 40min"],
            [from, to, number, minutes],
            told =>
                [
                    new JuvenilesReturned(
                        told.Said.TheVessel(from),
                        told.Said.TheVessel(to),
                        told.Said.Count(number),
                        told.Before<JuvenilesReturned>()?.Cohort,
                        told.Said.Amount(minutes, Dimension.Duration, "min"),
                        told.Before<JuvenilesReturned>()?.Pours
                    ),
                ]
        );
    }

    private static EntryVerb Juveniles()
    {
        var vessel = Slot.Word("VESSEL", "Where.");
        var number = Slot.Word("NUMBER", "How many.");
        var method = Slot.Option("--method", LarvaVerbs.Methods + " Else full.", "WORD");
        return new(
            "juveniles",
            "Juveniles in fresh water were counted.",
            ["write juveniles \"River tank\" 4"],
            [vessel, number, method],
            told =>
                [
                    new JuvenilesCounted(
                        told.Said.TheVessel(vessel),
                        told.Said.TheCount(number),
                        told.Said.Member<CountMethod>(method) ?? CountMethod.Full
                    ),
                ]
        );
    }

    private static EntryVerb GivenAway()
    {
        var vessel = Slot.Word("VESSEL", "Where they had lived.");
        var number = Slot.Word("NUMBER", "How many.");
        var to = Slot.Option("--to", "Who has them now.", "NAME");
        return new(
            "given-away",
            "Juveniles left the house for another keeper.",
            ["write given-away \"River tank\" 2 --to \"the club\""],
            [vessel, number, to],
            told =>
                [
                    new JuvenilesGivenAway(
                        told.Said.TheVessel(vessel),
                        told.Said.TheCount(number),
                        told.Said.Text(to)
                    ),
                ]
        );
    }

    private static EntryVerb Heard()
    {
        var vessel = Slot.Word("VESSEL", "Where they had lived here.");
        var card = Slot.Word("CARD", "Code of the care card that went with them.");
        var alive = Slot.Word("ALIVE", "How many live.");
        var received = Slot.Option("--received", "How many had come there.", "COUNT");
        var note = Slot.Option("--note", "What else was told.", "TEXT");
        return new(
            "heard",
            "Whoever got juveniles told how many of them live; `return hear` reads it from a file.",
            ["write heard \"River tank\" 7Q4M-2KX9-ZV 2 --received 2"],
            [vessel, card, alive, received, note],
            told =>
            {
                var code = CareCode.Read(told.Said.TheText(card));
                if (code is null)
                {
                    told.Said.Add(
                        new Remark("survival-code-wrong", new Argument("typed", told.Said.TheText(card)))
                    );
                }

                return
                [
                    new SurvivalHeard(
                        told.Said.TheVessel(vessel),
                        code?.Text ?? "",
                        told.Said.TheCount(alive),
                        told.Said.Count(received),
                        told.Said.Text(note)
                    ),
                ];
            }
        );
    }
}
