namespace Broodtide.Storage.Households;

/// <summary>
/// How the tables of the house came to be, oldest step first. A step that was ever given to people is never
/// changed; a new shape is a new step.
/// </summary>
internal static class HouseSchema
{
    public static IReadOnlyList<string> Steps { get; } = [];
}
