using System.Text.Json.Serialization;
using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>
/// A number as a person gave it: the text that was typed or tapped, the unit's code, and the value understood, in
/// that unit. The text is kept so that a misreading can be found and mended for ever after.
/// </summary>
/// <param name="Typed">The text, such as "33,5".</param>
/// <param name="Unit">A code of <see cref="UnitCode"/>.</param>
/// <param name="Value">The value understood, in that unit.</param>
/// <param name="Doubted">Whether it was asked back as improbable and confirmed as typed.</param>
[JsonConverter(typeof(TypedNumberConverter))]
public sealed record TypedNumber(string Typed, string Unit, double Value, bool Doubted = false)
{
    /// <summary>A number that was worked out or chosen, not typed: its text is its shortest form.</summary>
    public static TypedNumber Of(double value, string unit) =>
        new(EcmaNumber.Format(Finite.Required(value)), unit, value);

    /// <summary>The unit, or none if this build does not know it.</summary>
    public UnitCode? KnownUnit() => UnitCode.Find(Unit);
}
