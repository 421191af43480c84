using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Bunit;
using Microsoft.Extensions.DependencyInjection;

namespace Broodtide.Phone.Tests;

/// <summary>Renders components of the phone outside a browser, with the words and formats that every one of them is given.</summary>
public abstract class PhoneContext : BunitContext
{
    protected PhoneContext() =>
        Services
            .AddSingleton<Preferences>()
            .AddSingleton<PhoneClock>()
            .AddSingleton(Words.English())
            .AddSingleton<Formats>()
            .AddSingleton<PhoneZone>()
            .AddSingleton<Naming>()
            .AddSingleton<Sayings>()
            .AddSingleton(Spoken.Pictures)
            .AddSingleton(Spoken.Speech)
            .AddSingleton(Spoken.TideLine);
}
