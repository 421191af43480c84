using System.Collections.Immutable;
using Broodtide.Workbench.Species;

namespace Broodtide.Phone.Pictures;

/// <summary>A sign as the key shows it.</summary>
/// <param name="Sign">What the profile says.</param>
/// <param name="Told">The stage at which, about which or after which it is told.</param>
public sealed record KeySign(StageSign Sign, string Told);

/// <summary>One stage of the key: how it is drawn and what tells it from the one before.</summary>
/// <param name="Code">Z1 and so on, or PL.</param>
/// <param name="Traits">What the drawing shows.</param>
/// <param name="Signs">What is new at this stage; none where nothing is known.</param>
public sealed record KeyStage(string Code, LarvaTraits Traits, ImmutableArray<KeySign> Signs);

/// <summary>The drawn key to the stages of a species, made from the signs of its profile.</summary>
public static class StageKey
{
    private const int TeethOfTheAdult = 5;

    /// <summary>The stages in their order. What was seen once stays; a sign that shows after a stage is looked for in the next.</summary>
    public static ImmutableArray<KeyStage> Of(ImmutableArray<ProfileStage> stages)
    {
        var key = ImmutableArray.CreateBuilder<KeyStage>(stages.Length);
        var traits = new LarvaTraits();
        ImmutableArray<KeySign> later = [];
        foreach (var stage in stages)
        {
            var signs = later;
            var told = stage
                .Signs.Select(sign => new KeySign(sign, stage.Code))
                .ToLookup(sign => sign.Sign.When);
            signs = [.. signs, .. told[SignTiming.At], .. told[SignTiming.About]];
            later = [.. told[SignTiming.After]];
            traits = traits with
            {
                Growth = stages.Length > 1 ? key.Count / (stages.Length - 1.0) : 0,
                ToLookFor = [],
            };
            traits = signs.Aggregate(traits, With);
            key.Add(new(stage.Code, traits, signs));
        }

        return key.MoveToImmutable();
    }

    private static LarvaTraits With(LarvaTraits traits, KeySign told)
    {
        var (changed, part) = told.Sign.Code switch
        {
            "eyes-not-stalked" => (traits with { EyesStalked = false }, LarvaPart.Eyes),
            "eyes-stalked" => (traits with { EyesStalked = true }, LarvaPart.Eyes),
            "tail-setae" => (
                traits with
                {
                    TailBristles = told.Sign.Count ?? traits.TailBristles,
                },
                LarvaPart.TailBristles
            ),
            "tail-fan-outer-branches" => (traits with { OuterBranches = true }, LarvaPart.OuterBranches),
            "tail-fan-inner-branches" => (traits with { InnerBranches = true }, LarvaPart.InnerBranches),
            "tail-plate-rectangle" => (traits with { TailPlateRectangle = true }, LarvaPart.TailPlate),
            "light-attraction-fades" => (traits with { LeavesLight = true }, LarvaPart.Light),
            "pleopods" => (traits with { Pleopods = Pleopods.Buds }, LarvaPart.Pleopods),
            "pleopods-with-bristles" => (traits with { Pleopods = Pleopods.Bristled }, LarvaPart.Pleopods),
            "looks-like-small-adult" => (traits with { RostralTeeth = TeethOfTheAdult }, (LarvaPart?)null),
            "walks-head-up" => (
                traits with
                {
                    Walks = true,
                    TailPlateRectangle = true,
                    InnerBranches = true,
                    OuterBranches = true,
                    EyesStalked = true,
                },
                LarvaPart.Stance
            ),
            _ => (traits, null),
        };
        return part is { } shown ? changed with { ToLookFor = [.. changed.ToLookFor, shown] } : changed;
    }
}
