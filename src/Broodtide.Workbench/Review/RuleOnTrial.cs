using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>What came of a rule at one look.</summary>
public enum RuleOutcome
{
    /// <summary>It warned, and what it warns of was read.</summary>
    Hit,

    /// <summary>It did not warn, and what it warns of was read.</summary>
    Missed,

    /// <summary>It warned, nothing was done, and what was read lay within.</summary>
    FalseAlarm,

    /// <summary>It did not warn, and what was read lay within.</summary>
    Quiet,

    /// <summary>It cannot be said: the reading lay at the limit, or something was done in between.</summary>
    Undecided,
}

/// <summary>A rule at one look, with what was written down by then and nothing more.</summary>
/// <param name="At">When it was looked.</param>
/// <param name="About">At what.</param>
/// <param name="Warned">Whether it warned.</param>
/// <param name="ReadAt">When it was read, or seen, what came.</param>
/// <param name="Outcome">What came of it.</param>
public sealed record RuleLook(Instant At, Subject About, bool Warned, Instant ReadAt, RuleOutcome Outcome);

/// <summary>One rule of advice over all runs.</summary>
/// <param name="Quantity">The limit it watches; none for the night of hatching.</param>
/// <param name="Looks">The looks, oldest first.</param>
public sealed record RuleOnTrial(LimitedQuantity? Quantity, IReadOnlyList<RuleLook> Looks)
{
    /// <summary>How many looks had an outcome.</summary>
    public int Count(RuleOutcome outcome) => Looks.Count(look => look.Outcome == outcome);

    /// <summary>The rules of several houses as one: each with the looks of all, oldest first.</summary>
    public static IReadOnlyList<RuleOnTrial> Joined(IEnumerable<IReadOnlyList<RuleOnTrial>> houses) =>
        [
            .. houses
                .SelectMany(rules => rules)
                .GroupBy(rule => rule.Quantity)
                .OrderBy(rules => rules.Key is null ? -1 : (int)rules.Key)
                .Select(rules => new RuleOnTrial(
                    rules.Key,
                    [.. rules.SelectMany(rule => rule.Looks).OrderBy(look => look.At)]
                )),
        ];

    /// <summary>What the rule says, as a code.</summary>
    public Remark Rule =>
        Quantity is { } quantity
            ? new Remark("rule-limit", new Argument("quantity", quantity))
            : new Remark("rule-hatch-night");
}
