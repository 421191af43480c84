using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.Addresses;

/// <summary>Tells anybody where the house is, so that a phone notices when it opened the app under another address.</summary>
internal static class HouseApi
{
    public static RouteHandlerBuilder MapHouse(
        this WebApplication app,
        HouseStore house,
        Opening.Opening? opening
    )
    {
        var addresses = new HouseAddresses(house);
        return app.MapGet(
            "/" + HouseTold.Path,
            () =>
                Results.Json(
                    new HouseTold(addresses.Current(), addresses.Former(), opening?.TrustPage),
                    HouseToldJson.Default.HouseTold
                )
        );
    }
}
