using System.Globalization;

namespace Broodtide.Browser.Tests;

/// <summary>The tab key pressed through a whole page: all that can be touched is reached, in its order, and shows it.</summary>
internal static class KeyboardWalk
{
    public static async Task Over(Opened opened)
    {
        // A page that draws itself anew while the keyboard walks over it is walked over again.
        for (var walk = 0; ; walk++)
        {
            var stops = await MarkStops(opened);
            Assert.True(stops > 0);
            // A field for a time or a date holds stops of its own: hour, minute, and the key that opens it.
            var inner = await opened
                .Page.Locator("input[type=time], input[type=date], input[type=datetime-local]")
                .CountAsync();
            var reached = new List<int>();
            for (var press = 0; press < stops + (4 * inner) + 3; press++)
            {
                await opened.Page.Keyboard.PressAsync("Tab");
                var (stop, isShown) = await Focused(opened);
                if (stop is not null)
                {
                    Assert.True(isShown, $"The focus does not show at stop {stop}.");
                    reached.Add(int.Parse(stop, CultureInfo.InvariantCulture));
                }
            }

            var isWhole =
                reached.Distinct().Count() == stops
                && await opened.Page.Locator("[data-stop]").CountAsync() == stops;
            if (walk == 2 || isWhole)
            {
                Assert.Equal(stops, reached.Distinct().Count());
                // In the order in which the page is read; past the last stop it begins again.
                var once = reached.Distinct().ToList();
                Assert.Equal(
                    once.Order(),
                    once.SkipWhile(stop => stop != once.Min())
                        .Concat(once.TakeWhile(stop => stop != once.Min()))
                );
                return;
            }
        }
    }

    private static async Task<int> MarkStops(Opened opened)
    {
        await opened.Page.EvaluateAsync(
            """
            () => {
              // A group of radio buttons is one stop; arrows move inside it.
              const stops = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
                .filter(it => !it.disabled && it.checkVisibility())
                .filter(it => it.type !== 'radio' || it.checked);
              stops.forEach((it, index) => it.dataset.stop = index);
              document.activeElement?.blur();
            }
            """
        );
        return await opened.Page.Locator("[data-stop]").CountAsync();
    }

    private static async Task<(string? Stop, bool IsShown)> Focused(Opened opened)
    {
        var told = await opened.Page.EvaluateAsync<string?>(
            """
            () => {
              const it = document.activeElement;
              if (!it?.dataset.stop) return null;
              const drawn = it.type === 'radio' ? it.closest('label') : it;
              // The key inside a field for a time: the browser rings that one itself, and the field is not in focus.
              if (it.type === 'time' && !it.matches(':focus')) return it.dataset.stop + ' true';
              return it.dataset.stop + ' ' + (getComputedStyle(drawn).outlineStyle === 'solid');
            }
            """
        );
        var parts = told?.Split(' ');
        return (parts?[0], parts?[1] == "true");
    }
}
