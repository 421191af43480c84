using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Trials;

/// <summary>What is at hand for a trial, as it is typed; shared by planning and laying out.</summary>
internal sealed class TrialSlots
{
    private readonly Slot _vessels = Slot.Option("--vessels", "Vessels at hand; needed.", "NUMBER");
    private readonly Slot _larvae = Slot.Option(
        "--larvae",
        "Larvae at hand, all together; needed.",
        "NUMBER"
    );
    private readonly Slot _blocks = Slot.Option(
        "--blocks",
        "Hatches or shelves that each get every treatment; 1 if left out.",
        "NUMBER"
    );
    private readonly Slot _usual = Slot.Option(
        "--usual",
        "The share expected as always, such as of larvae that settle; 30% if left out.",
        "SHARE"
    );
    private readonly Slot _wished = Slot.Option(
        "--wished",
        "The share another treatment would have to reach to be worth finding; 60% if left out.",
        "SHARE"
    );
    private readonly Slot _correlation = Slot.Option(
        "--correlation",
        "How alike larvae of one vessel fare, 0 to 1; 0.1 is assumed if left out.",
        "NUMBER"
    );
    private readonly Slot _water = Slot.Option(
        "--water",
        "Water in each vessel, to tell whether it is crowded.",
        "VOLUME"
    );
    private readonly Slot _seed = Slot.Option("--seed", "The seed that treatments are dealt with.", "NUMBER");

    public IReadOnlyList<Slot> All =>
        [_vessels, _larvae, _blocks, _usual, _wished, _correlation, _water, _seed];

    /// <summary>What was typed; what is wrong is told by the reader.</summary>
    public TrialWishes? Read(Said said, int treatments, int seed)
    {
        var wishes = new TrialWishes
        {
            Vessels = Needed(said, _vessels),
            Larvae = Needed(said, _larvae),
            Treatments = treatments,
            Blocks = said.Count(_blocks) ?? 1,
            Usual = Share(said, _usual) ?? Probability.FromFraction(0.3),
            Wished = Share(said, _wished) ?? Probability.FromFraction(0.6),
            Correlation = Share(said, _correlation) ?? TrialWishes.AssumedCorrelation,
            Water = said.Volume(_water).AsVolume(),
            Seed = said.Count(_seed) ?? seed,
        };
        return said.Wrong.Count > 0 ? null : wishes;
    }

    private static int Needed(Said said, Slot slot)
    {
        if (said.Count(slot) is { } number)
        {
            return number;
        }

        if (said.Text(slot) is null)
        {
            said.Add(new Remark("option-needed", new Argument("field", slot.Name)));
        }

        return 0;
    }

    /// <summary>A share as 30%, 30 % or 0.3.</summary>
    internal static Probability? Share(Said said, Slot slot)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        var read = Workbench.Recording.NumberText.Parse(text.TrimEnd(' ', '%'), slot.Name);
        if (!said.Take(read))
        {
            return null;
        }

        var share = read.Value.Value / (text.TrimEnd().EndsWith('%') ? 100 : 1);
        if (share is >= 0 and <= 1)
        {
            return Probability.FromFraction(share);
        }

        said.Add(
            new Remark(
                "number-impossible",
                new("field", slot.Name),
                new("typed", text),
                new("lowest", 0),
                new("highest", 1)
            )
        );
        return null;
    }
}
