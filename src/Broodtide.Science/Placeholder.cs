namespace Broodtide.Science;
