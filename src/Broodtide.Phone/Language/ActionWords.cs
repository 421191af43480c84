using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Phone.Language;

/// <summary>A due action in words: the deed with amount and thing, the deed done, and why.</summary>
internal sealed class ActionWords(Words words, Sayings sayings, Naming naming)
{
    /// <summary>The deed: what, how much, with what.</summary>
    public string Deed(PlannedAction action, House house) => Filled("do", action, house);

    /// <summary>The deed in the past tense, for the key that writes it.</summary>
    public string Done(PlannedAction action, House house) => Filled("done", action, house);

    /// <summary>The reason.</summary>
    public IReadOnlyList<WordPart> Why(PlannedAction action, House house, Instant now) =>
        sayings.Of(action.Reason, house, WhyVariant(action, now));

    /// <summary>How much of what, a sentence each.</summary>
    public IEnumerable<IReadOnlyList<WordPart>> Amounts(PlannedAction action, House house) =>
        action.Amounts.Select(amount => sayings.Of(amount, house, amount["portions"] is 1 ? "once" : null));

    /// <summary>What follows if it slips; none where it may not.</summary>
    public IReadOnlyList<WordPart>? Slip(PlannedAction action, House house) =>
        action.IfItSlips is { } slip ? sayings.Of(slip, house) : null;

    private string Filled(string prefix, PlannedAction action, House house)
    {
        var code = $"{prefix}.{action.Code}";
        if (Variant(action) is { } variant && words.Has($"{code}.{variant}"))
        {
            code = $"{code}.{variant}";
        }

        return Sayings.Plain(
            sayings.Filled(
                code,
                house,
                action.Amounts,
                ("about", naming.Of(house, action.About)),
                ("female", Female(action, house))
            )
        );
    }

    private string Female(PlannedAction action, House house) =>
        action.About.Kind is SubjectKind.Brood
            ? naming.FemaleOf(house, house.Brood(new BroodId(action.About.Id)))
            : words["name.female"];

    private static string? Variant(PlannedAction action) =>
        action.Code is ActionCodes.TopUp
            ? Portions(action) switch
            {
                1 => null,
                2 => "twice",
                _ => "often",
            }
        : action.Amounts.Count == 0 ? "plain"
        : null;

    private static string? WhyVariant(PlannedAction action, Instant now) =>
        action.Reason.Code switch
        {
            "due-leaves-its-band" when action.Reason["middle"] is Instant middle && middle <= now => "past",
            "plan-look-narrows-the-window" when SameWidth(action.Reason) => "later",
            _ => null,
        };

    private static bool SameWidth(Remark reason) =>
        reason["windowDays"] is double now && reason["expectedDays"] is double then && then > now - 0.3;

    private static int Portions(PlannedAction action) =>
        action.Amounts.Select(amount => amount["portions"]).OfType<int>().FirstOrDefault(1);
}
