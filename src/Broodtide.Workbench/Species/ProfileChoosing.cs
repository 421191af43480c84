using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>Puts a choice on a quantity, or says why it cannot stand.</summary>
internal static class ProfileChoosing
{
    /// <summary>Exactly one of the two is there.</summary>
    internal readonly record struct Outcome(AppliedChoice? Applied, ProfileConflict? Conflict);

    internal static Outcome Apply(ProfileQuantity quantity, ProfileChoice choice)
    {
        if (ProfileUnit.Find(choice.Unit) is not { } unit)
        {
            return No(ProfileConflictCodes.UnknownUnit, choice, UnitsOf(quantity.Unit.Kind));
        }

        if (unit.Kind != quantity.Unit.Kind)
        {
            return No(ProfileConflictCodes.UnitOfAnotherKind, choice, UnitsOf(quantity.Unit.Kind));
        }

        if (string.IsNullOrWhiteSpace(choice.Reason))
        {
            return No(ProfileConflictCodes.NoReason, choice, []);
        }

        if (choice is { Value: null, Low: null, High: null })
        {
            return No(ProfileConflictCodes.Empty, choice, PartsOf(quantity.Original));
        }

        var original = quantity.Original;
        if (
            (choice.Value is not null && original.Value is null)
            || (choice.Low is not null && original.Low is null)
            || (choice.High is not null && original.High is null)
        )
        {
            return No(ProfileConflictCodes.PartNotUsed, choice, PartsOf(original));
        }

        if (!Allows(unit, choice.Value) || !Allows(unit, choice.Low) || !Allows(unit, choice.High))
        {
            return No(ProfileConflictCodes.Impossible, choice, []);
        }

        var value = In(choice.Value, unit, quantity.Unit);
        var low = In(choice.Low, unit, quantity.Unit);
        var high = In(choice.High, unit, quantity.Unit);
        if (!ProfileAmount.Ascend(value, low, high))
        {
            return No(ProfileConflictCodes.NotAscending, choice, []);
        }

        var chosen = ProfileAmount.FromParts(value, low, high);
        return new(new(choice, Fill(chosen, original), !chosen.LiesWithin(quantity.Published)), null);
    }

    // What was not chosen stays as it was, unless a chosen part has passed it.
    private static ProfileAmount Fill(ProfileAmount chosen, ProfileAmount original)
    {
        var low = chosen.Low ?? Least(original.Low, chosen.Value, chosen.High);
        var high = chosen.High ?? Most(original.High, chosen.Value, chosen.Low);
        var value = chosen.Value ?? Most(Least(original.Value, high, null), low, null);
        return ProfileAmount.FromParts(value, low, high);
    }

    private static double? Least(double? part, double? first, double? second) =>
        part is { } p ? Math.Min(p, Math.Min(first ?? p, second ?? p)) : null;

    private static double? Most(double? part, double? first, double? second) =>
        part is { } p ? Math.Max(p, Math.Max(first ?? p, second ?? p)) : null;

    private static bool Allows(ProfileUnit unit, double? part) => part is not { } p || unit.Allows(p);

    private static double? In(double? part, ProfileUnit from, ProfileUnit to) =>
        part is { } p ? from.Convert(p, to) : null;

    private static ImmutableArray<string> UnitsOf(ProfileUnitKind kind) =>
        [.. ProfileUnit.All.Where(unit => unit.Kind == kind).Select(unit => unit.Code)];

    private static ImmutableArray<string> PartsOf(ProfileAmount amount)
    {
        var parts = ImmutableArray.CreateBuilder<string>(3);
        if (amount.Value is not null)
        {
            parts.Add("value");
        }

        if (amount.Low is not null)
        {
            parts.Add("low");
        }

        if (amount.High is not null)
        {
            parts.Add("high");
        }

        return parts.ToImmutable();
    }

    private static Outcome No(string code, ProfileChoice choice, ImmutableArray<string> allowed) =>
        new(null, new(code, choice, allowed));
}
