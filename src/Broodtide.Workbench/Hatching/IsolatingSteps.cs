using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>
/// How a berried female is put alone and when she goes back, or how she is left and her larvae are gathered by torch, step by
/// step. Common practice without a source; the words say why.
/// </summary>
public static class IsolatingSteps
{
    /// <summary>How long after a moult she is not caught.</summary>
    public static Duration SoftFor { get; } = Duration.FromDays(1);

    /// <summary>Into the box.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="brood">The brood.</param>
    /// <param name="now">The present.</param>
    public static IReadOnlyList<Remark> IntoTheBox(House house, Brood brood, Instant now)
    {
        var moult = brood.Animal is { } id
            ? house
                .Animal(id)
                .Moults.Select(when => (Instant?)when.Latest)
                .Where(when => when <= now && now - when < SoftFor)
                .Max()
            : null;
        return
        [
            moult is { } soft
                ? new Remark("isolate-wait-she-moulted", new("moult", soft), new("hardAt", soft + SoftFor))
                : new Remark("isolate-never-within-a-day-of-a-moult"),
            new("isolate-same-water"),
            new("isolate-under-water"),
            new("isolate-lid-and-moss"),
            new("isolate-cover-the-intake"),
            new("isolate-two-in-one-box"),
        ];
    }

    /// <summary>Back to the others.</summary>
    public static IReadOnlyList<Remark> Back { get; } =
    [new("isolate-back-when-empty"), new("isolate-back-the-same-way")];

    /// <summary>Or leave her, and gather by torch.</summary>
    public static IReadOnlyList<Remark> OrLeaveHer { get; } =
    [
        new("torch-filter-off-at-dusk"),
        new("torch-one-light-in-the-dark"),
        new("torch-several-gatherings-one-brood"),
    ];
}
