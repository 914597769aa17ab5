using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>The functions of <c>door.js</c>, where they are told.</summary>
internal static partial class DoorModule
{
    private const string Module = "door";

    public static Task LoadAsync() => JSHost.ImportAsync(Module, "../door.js");

    [JSImport("hasPasskeys", Module)]
    public static partial bool HasPasskeys();

    [JSImport("makePasskey", Module)]
    public static partial Task<string> MakePasskeyAsync(string options);

    [JSImport("showPasskey", Module)]
    public static partial Task<string> ShowPasskeyAsync(string options);

    [JSImport("takeCode", Module)]
    public static partial string TakeCode();
}
