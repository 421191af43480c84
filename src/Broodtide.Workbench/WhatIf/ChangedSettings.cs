using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>A vessel under another lamp, at another warmth, with more or fewer larvae.</summary>
internal static class ChangedSettings
{
    public static VesselScene Lit(VesselScene scene, WhatIfChange.LightFor light, int from)
    {
        var lit = scene.Hours.Skip(from).Take(24).Select(hour => hour.LightMicromoles).ToArray();
        var brightest = light.Micromoles ?? lit.DefaultIfEmpty(0).Max();
        var dim = lit.DefaultIfEmpty(0).Min();
        var middle = MiddleOfLight(lit);
        var place = 0;
        return SceneHours.After(
            scene,
            from,
            hour =>
            {
                var away = Math.Abs(((place++ + 0.5 - middle + 36) % 24) - 12);
                var burns = away < light.HoursPerDay / 2 || light.HoursPerDay >= 24;
                // Daylight of the room comes in as before where the lamp is off; "no light" is the dark.
                return hour with
                {
                    LightMicromoles =
                        burns ? brightest
                        : light.HoursPerDay == 0 ? 0
                        : Math.Min(dim, hour.LightMicromoles),
                };
            }
        );
    }

    public static VesselScene Warmed(VesselScene scene, WhatIfChange.TemperatureTo warm, WhatIfGround ground)
    {
        var all = warm.To - ground.HourNow.Temperature.Celsius;
        var over = 24 * warm.OverDays;
        var place = 0;
        return SceneHours.After(
            scene,
            ground.FromHour,
            hour =>
            {
                var share = over == 0 ? 1 : Math.Min(1, (double)++place / over);
                return hour with
                {
                    Temperature = Temperature.FromCelsius(hour.Temperature.Celsius + (all * share)),
                };
            }
        );
    }

    public static VesselScene Populated(VesselScene scene, int from, double factor) =>
        SceneHours.After(
            scene,
            from,
            hour => hour with { Larvae = factor > 0 ? hour.Larvae.Scaled(factor) : Interval.Exactly(0) }
        );

    // Middle of the lit hours, counted from now, as the direction of their sum round the clock.
    private static double MiddleOfLight(double[] lit)
    {
        double x = 0;
        double y = 0;
        for (var i = 0; i < lit.Length; i++)
        {
            var angle = 2 * Math.PI * (i + 0.5) / 24;
            x += lit[i] * Math.Cos(angle);
            y += lit[i] * Math.Sin(angle);
        }

        return Math.Abs(x) + Math.Abs(y) < 1e-9 ? 6 : (Math.Atan2(y, x) / (2 * Math.PI) * 24 + 24) % 24;
    }
}
