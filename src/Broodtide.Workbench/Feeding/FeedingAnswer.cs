using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>Something worked out about food, or why a rule says no.</summary>
/// <typeparam name="T">What was asked for.</typeparam>
public abstract record FeedingAnswer<T>
{
    private protected FeedingAnswer() { }

    /// <summary>It can be.</summary>
    public sealed record Found(T Value) : FeedingAnswer<T>;

    /// <summary>It cannot.</summary>
    /// <param name="Why">The rule, and the nearest that can be where there is one.</param>
    public sealed record Refused(Remark Why) : FeedingAnswer<T>;

    internal static FeedingAnswer<T> No(string code, params ReadOnlySpan<Argument> arguments) =>
        new Refused(new Remark(code, arguments));
}
