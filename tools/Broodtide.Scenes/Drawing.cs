namespace Broodtide.Scenes;

/// <summary>Invents what is no larva.</summary>
internal static class Drawing
{
    private static readonly Spot Stays = new(0, 0);

    public static IReadOnlyList<Nuisance> Nuisances(
        Dice dice,
        Limits limits,
        InventedScene scene,
        double perMm,
        int number
    )
    {
        var things = new List<Nuisance>();
        var debris = (int)Math.Round((limits.DebrisForEach * number) + dice.Next(5, 25));
        for (var i = 0; i < debris; i++)
        {
            things.Add(Debris(dice, scene, perMm));
        }

        Spot Anywhere() => new(dice.Next(0, scene.Width), dice.Next(0, scene.Height));
        for (var i = dice.Whole(0, limits.Bubbles); i > 0; i--)
        {
            things.Add(Bubble(dice, Anywhere(), perMm, Stays));
        }

        for (var i = dice.Whole(0, limits.RisingBubbles); i > 0; i--)
        {
            things.Add(
                Bubble(dice, Anywhere(), perMm, new(dice.Normal(0.3) * perMm, -dice.Next(1, 5) * perMm))
            );
        }

        var current = dice.Angle();
        var moults = (int)Math.Round((limits.MoultsForEach * number) + dice.Next(0, limits.Moults));
        for (var i = 0; i < moults; i++)
        {
            var drift = dice.Next(0.02, 0.15) * perMm;
            things.Add(
                new(
                    NuisanceKind.Moult,
                    scene.APlace(),
                    dice.LogNormal(scene.Light.MedianLengthMm, 0.18) * perMm,
                    dice.Angle(),
                    scene.Light.Albedo * dice.Next(0.25, 0.6),
                    dice.Whole(0, 2),
                    new(drift * Math.Cos(current), drift * Math.Sin(current)),
                    dice.Normal(0.06),
                    []
                )
            );
        }

        for (var i = dice.Whole(0, 3); i > 0; i--)
        {
            things.Add(
                new(
                    NuisanceKind.Glare,
                    Anywhere(),
                    dice.Next(8, 30) * scene.Scale,
                    dice.Angle(),
                    dice.Next(0.4, 3),
                    dice.Whole(0, 2),
                    Stays,
                    0,
                    []
                )
            );
        }

        for (var i = dice.Whole(0, 5); i > 0; i--)
        {
            things.Add(
                new(
                    NuisanceKind.Scratch,
                    Anywhere(),
                    dice.Next(30, 150) * scene.Scale,
                    dice.Angle(),
                    dice.Next(0.01, 0.06),
                    2,
                    Stays,
                    0,
                    []
                )
            );
        }

        return things;
    }

    private static Nuisance Debris(Dice dice, InventedScene scene, double perMm)
    {
        var size = Math.Min(5, dice.LogNormal(0.9, 0.6)) * perMm;
        var (corners, stretch) = (dice.Whole(4, 8), dice.Next(0.35, 1));
        var outline = new List<Spot>();
        for (var corner = 0; corner < corners; corner++)
        {
            var (angle, reach) = (
                2 * Math.PI * (corner + dice.Next(-0.3, 0.3)) / corners,
                dice.Next(0.55, 1) * size / 2
            );
            outline.Add(new(reach * Math.Cos(angle), reach * Math.Sin(angle) * stretch));
        }

        return new(
            NuisanceKind.Debris,
            dice.Happens(0.5) ? scene.APlace() : new(dice.Next(0, scene.Width), dice.Next(0, scene.Height)),
            size,
            dice.Angle(),
            dice.Next(0.08, 0.5),
            dice.Whole(0, 2),
            Stays,
            0,
            outline
        );
    }

    private static Nuisance Bubble(Dice dice, Spot at, double perMm, Spot drift) =>
        new(
            NuisanceKind.Bubble,
            at,
            dice.Next(0.3, 1.4) * perMm,
            dice.Angle(),
            dice.Next(0.1, 0.4),
            dice.Whole(0, 1),
            drift,
            0,
            []
        );
}
